import { existsSync, readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../server/protocol/messages';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { manifest as shown } from '../support/manifest';

interface Property {
  readonly default: unknown;
}
interface Manifest {
  readonly icon: string;
  readonly contributes: {
    readonly languages: readonly { readonly configuration: string; readonly icon: Record<string, string> }[];
    readonly grammars: readonly { readonly path: string }[];
    readonly commands: readonly { readonly command: string; readonly title: string }[];
    readonly menus: Record<string, readonly { readonly command: string }[]>;
    readonly keybindings: readonly { readonly command: string }[];
    readonly configuration: { readonly properties: Record<string, Property> };
    readonly walkthroughs: readonly {
      readonly steps: readonly { readonly description: string; readonly media: { readonly markdown: string } }[];
    }[];
  };
}
const manifest: Manifest = shown;
const { contributes } = manifest;
const source = globSync('client/**/*.ts')
  .map((path) => readFileSync(path, 'utf8'))
  .join('\n');

/** Commands that the client's code registers, by literal or through `COMMANDS`. */
const registered = new Set([
  ...[...source.matchAll(/registerCommand\(\s*'([^']+)'/g)].map((match) => match[1]),
  ...[...source.matchAll(/registerCommand\(\s*COMMANDS\.(\w+)/g)].map((match) => COMMANDS[match[1] as keyof typeof COMMANDS]),
]);

describe('the manifest', () => {
  it('offers only commands that exist, and every command but those behind links', () => {
    const offered = contributes.commands.map(({ command }) => command);
    expect(offered.filter((command) => !registered.has(command))).toEqual([]);
    const links: readonly string[] = [COMMANDS.pin, COMMANDS.reveal, COMMANDS.logAttempt];
    expect([...registered].filter((command) => !offered.includes(command!) && !links.includes(command!))).toEqual([]);
  });

  it('shows in menus, keys and the tour only commands that it offers', () => {
    const offered = new Set(contributes.commands.map(({ command }) => command));
    const toured = contributes.walkthroughs.flatMap(({ steps }) =>
      steps.flatMap(({ description }) => [...description.matchAll(/command:(passagework\.\w+)/g)].map((match) => match[1]!)),
    );
    const used = [...Object.values(contributes.menus).flat(), ...contributes.keybindings].map(({ command }) => command);
    expect([...used, ...toured].filter((command) => !offered.has(command))).toEqual([]);
    expect(toured.length).toBeGreaterThan(0);
  });

  it('registers every command that the server may put into a link', () => {
    expect(Object.values(COMMANDS).filter((command) => !registered.has(command))).toEqual([]);
  });

  it('declares the settings that the server reads, with the server’s own defaults', () => {
    const declared = Object.fromEntries(
      Object.entries(contributes.configuration.properties)
        .filter(([name]) => !/^passagework\.(preview|staff|sheet|trace)\./.test(name))
        .map(([name, property]) => [name.replace('passagework.', ''), property.default]),
    );
    // What a project's baseline knows is no setting of the editor's.
    const { known, ...settings } = DEFAULT_SETTINGS;
    expect(declared).toEqual(settings);
    expect(known).toEqual([]);
  });

  it('names only files that exist', () => {
    const named = [
      manifest.icon,
      ...contributes.languages.flatMap(({ configuration, icon }) => [configuration, ...Object.values(icon)]),
      ...contributes.grammars.map(({ path }) => path),
      ...contributes.walkthroughs.flatMap(({ steps }) => steps.map(({ media }) => media.markdown)),
    ];
    expect(named.filter((path) => !existsSync(path))).toEqual([]);
  });
});

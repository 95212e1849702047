import type { Tree } from '../../grammar/tree';
import type { SettingPlace } from './settings';

/** Lines that belong together: `first` is the `passage:` line, or 0. */
export interface Region {
  readonly first: number;
  readonly end: number;
  readonly title: string;
  /** Settings of the passage alone; those of an unnamed first one are the file's. */
  readonly head: readonly SettingPlace[];
  /** Index of the first line of music; `end` where there is none. */
  readonly music: number;
}

/** Divides a file into its passages. What stands before the first `passage:` line and before any music is the file's. */
export function divide({ lines }: Tree): { readonly fileHead: readonly SettingPlace[]; readonly regions: readonly Region[] } {
  const starts = lines.flatMap(({ node }, line) => (node.kind === 'passage' ? [line] : []));
  const firstNamed = starts[0] ?? lines.length;
  const musicFrom = (first: number, end: number) => {
    for (let line = first; line < end; line++) if (lines[line]?.node.kind === 'music') return line;
    return end;
  };
  const settingsIn = (first: number, end: number) =>
    lines.slice(first, end).flatMap(({ node }, index) => (node.kind === 'setting' ? [{ node, line: first + index }] : []));

  const unnamed = musicFrom(0, firstNamed);
  const regions: Region[] = [];
  if (unnamed < firstNamed) regions.push({ first: 0, end: firstNamed, title: '', head: [], music: unnamed });
  starts.forEach((first, index) => {
    const end = starts[index + 1] ?? lines.length;
    const music = musicFrom(first, end);
    const node = lines[first]?.node;
    regions.push({ first, end, title: node?.kind === 'passage' ? node.name.text : '', head: settingsIn(first, music), music });
  });
  return { fileHead: settingsIn(0, unnamed), regions };
}

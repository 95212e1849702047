import { describe, expect, it } from 'vitest';
import { breaches, roomOf } from './breaches';
import { PACKAGES } from './layers';
import { parseSource, readSource, sourcePaths, target } from './sources';

const rooms = ['grammar', 'server', 'client'].flatMap(sourcePaths);

describe('layers', () => {
  it('finds the sources', () => {
    expect(rooms.length).toBeGreaterThan(10);
    expect(rooms).toContain('server/passage/passage.ts');
  });

  it('stand: every import runs one way, and the core runs anywhere', () => {
    expect(rooms.flatMap((path) => breaches(readSource(path)))).toEqual([]);
  });
});

it('allows no package to a room that has no use for it', () => {
  const used = new Set(
    rooms.flatMap((path) => readSource(path).imports.map(({ specifier }) => `${roomOf(path)} ${target(path, specifier).name}`)),
  );
  const idle = Object.entries(PACKAGES).flatMap(([name, allowed]) =>
    allowed.filter((room) => room !== '*' && !used.has(`${room} ${name}`)).map((room) => `${room} ${name}`),
  );
  expect(idle).toEqual([]);
});

it('the command writes files through one door, which loses nothing', () => {
  const writes = /^(writeFile|appendFile|createWriteStream|openSync|rename|copyFile|truncate)(Sync)?$/;
  const writers = rooms.filter(
    (path) => path.startsWith('server/command/') && readSource(path).names.some(({ name }) => writes.test(name)),
  );
  expect(writers).toEqual(['server/command/replace-file.ts']);
});

/** Each invented breach must be caught, with its reason; else the check above could not fail. */
describe('a breach is told with its reason', () => {
  const cases: readonly [path: string, text: string, reason: RegExp][] = [
    ['server/music/a.ts', "import { solve } from '../solver/solve';", /server\/music may not see server\/solver.*one way/],
    ['server/music/a.ts', "export type { Way } from '../solver/way';", /may not see server\/solver/],
    ['server/scene/a.ts', "const table = await import('../rules/table');", /server\/scene may not see server\/rules/],
    ['server/lsp/a.ts', "import { json } from '../command/json';", /server\/lsp may not see server\/command/],
    ['server/passage/a.ts', "import type { Scene } from '../protocol/scene';", /may not see server\/protocol/],
    ['server/solver/a.ts', "import { readFileSync } from 'fs';", /Node built-ins are absent in a web worker/],
    ['server/lsp/browser.ts', "import { resolve } from 'node:path';", /Node built-ins/],
    ['server/features/a.ts', "import { Range } from 'vscode-languageserver';", /vscode-languageserver belongs to server\/lsp/],
    ['server/command/a.ts', "import { Log } from 'sarif';", /for its types alone.*import type/],
    ['server/solver/a.ts', "import highs from 'highs';", /highs is not among the packages/],
    ['server/workspace/a.ts', "import * as vscode from 'vscode';", /vscode belongs to client only/],
    ['client/a.ts', "import type { Solution } from '../server/solver/solution';", /client may not see server\/solver/],
    ['client/webview/a.ts', "import { SCENE_REQUEST } from '../../server/protocol/messages';", /only types.*import type/],
    ['client/webview/a.ts', "import vscode from 'vscode';", /vscode belongs to client only/],
    ['server/utilities/a.ts', '', /in no room/],
    ['server/features/a.ts', "if (process.env.DEBUG) throw new Error('no');", /process: it does not exist in a web worker/],
    ['server/features/a.ts', "const bytes = Buffer.from('');", /Buffer/],
    ['server/solver/a.ts', 'const seed = Math.random();', /Math\.random: server\/solver answers from its arguments/],
    ['server/hand/a.ts', 'const now = new Date();', /new Date/],
  ];
  it.each(cases)('%s: %s', (path, text, reason) => {
    expect(breaches(parseSource(path, text)).join('\n')).toMatch(reason);
  });

  it('and what is allowed is left alone', () => {
    const allowed: readonly [path: string, text: string][] = [
      ['server/solver/a.ts', "import { pitchName } from '../music/pitch';\nimport Fraction from 'fraction.js';"],
      ['server/lsp/node.ts', "import { createMessageConnection } from 'vscode-jsonrpc/node';\nprocess.exit(0);"],
      ['server/command/main.ts', "import { readFileSync } from 'node:fs';"],
      ['client/webview/a.ts', "import type { Scene } from '../../server/protocol/scene';"],
      ['client/a.ts', "import { SCENE_REQUEST } from '../server/protocol/messages';\nimport * as vscode from 'vscode';"],
      [
        'server/solver/a.ts',
        'export interface Step { readonly process: string }\nexport const name = (step: Step) => step.process;',
      ],
    ];
    expect(allowed.flatMap(([path, text]) => breaches(parseSource(path, text)))).toEqual([]);
  });
});

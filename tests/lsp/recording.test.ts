import { expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { placesIn } from '../../server/lsp/places';
import { playerEdit } from '../../server/lsp/player-requests';

const PLAYER = 'name: Ines\r\n\r\nIII 1/4: 3 of 4  // mostly\r\n';
const COUNTS = [
  { attempt: 'III 1/4', clean: 1, tried: 2 },
  { attempt: 'II fourth', clean: 0, tried: 1 },
];

const documentOf = (text: string) => TextDocument.create('file:///ines.player', 'player', 1, text);

/** The player's text once a recording is counted or taken back; undefined where nothing changes. */
function changed(text: string, back: boolean): string | undefined {
  const document = documentOf(text);
  const change = { kind: 'recording', fingerprint: '0123456789abcdef', counts: COUNTS, back } as const;
  const edit = playerEdit({ text, change }, () => placesIn(document));
  if (!edit) return undefined;
  const [start, end] = [document.offsetAt(edit.start), document.offsetAt(edit.end)];
  return text.slice(0, start) + edit.text + text.slice(end);
}

it('counts a recording once, keeps what is written beside it, and takes it back without a trace', () => {
  const counted = changed(PLAYER, false) ?? '';
  expect(counted).toContain('III 1/4: 4 of 6  // mostly\r\nII fourth: 0 of 1\r\n');
  expect(changed(counted, false)).toBeUndefined();
  expect(changed(counted, true)).toBe(PLAYER);
  expect(changed(PLAYER, true)).toBeUndefined();
});

it.each(['', '\n', 'name: Ines', '\n\nname: Ines\n'])('works in a file that reads %j', (text) => {
  const counted = changed(text, false) ?? '';
  expect(counted).toContain('III 1/4: 1 of 2');
  expect(counted).toContain(text.trim());
  expect(changed(counted, true)?.trim()).toBe(text.trim());
});

import { describe, expect, it } from 'vitest';
import { hoverAt } from '../../server/features/hover';
import type { Overrides } from '../../server/passage/setup';
import { choosePlayerPath } from '../../server/player/player-choice';
import { choiceOf } from '../../server/player/player-file';
import { readPlayer } from '../../server/player/read-player';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { snapshot } from '../../server/workspace/snapshot';
import { edited } from '../support/caret';
import { fingerings } from '../support/reading';

/** Player files by their path, as they would lie beside a passage. */
function beside(files: Readonly<Record<string, string>>): Overrides {
  return {
    players: (path) => {
      const text = files[path];
      if (text === undefined) return { missing: 'there is no such file' };
      const file = readPlayer(text);
      return { choice: choiceOf(file, path), faults: file.problems.length };
    },
  };
}

const read = (text: string, overrides: Overrides = {}, settings: Partial<typeof DEFAULT_SETTINGS> = {}) =>
  snapshot(text, 1, { ...DEFAULT_SETTINGS, ...settings }, undefined, overrides);
const setupOf = (...given: Parameters<typeof read>) => read(...given).resolved.passages[0]!.setup;

const INES = 'name: Ines\ninstrument: violin 3/4\nhand: 1-4 98\ncomfort: 70 %\nin tune: 12 cents\nIII 1/5: 0 of 10\n';
const files = beside({ 'ines.player': INES });

describe('a passage with a player', () => {
  it('is played on the player’s instrument, with the player’s hand and record', () => {
    const { instrument, hand, player } = setupOf('player: ines.player\nD5', files);
    expect(instrument.name).toBe('violin 3/4');
    expect(hand.reaches['1-4']).toMatchObject({ most: 98, comfortable: 98 * 0.7 });
    expect(hand.skill.inTune).toBe(12);
    expect(hand.experience).toEqual({ 'III natural 1/5': { clean: 0, tried: 10 } });
    expect(player).toEqual({ name: 'Ines', file: 'ines.player' });
  });

  it('what the passage says itself wins over the player, the player over the editor’s settings', () => {
    const own = setupOf('player: ines.player\ninstrument: violin 1/2\nhand: small\nD5', files);
    expect([own.instrument.name, own.hand.name]).toEqual(['violin 1/2', 'small']);
    const settings = { instrument: 'viola', hand: 'large' };
    const over = setupOf('player: ines.player\nD5', files, settings);
    expect([over.instrument.name, over.hand.name]).toEqual(['violin 3/4', 'measured']);
    expect(setupOf('D5', files, settings).instrument.name).toMatch(/^viola/);
    const head = setupOf('hand: small\npassage: Tide\nplayer: ines.player\nD5', files);
    expect([head.instrument.name, head.hand.name]).toEqual(['violin 3/4', 'small']);
  });

  it('attempts count on the kind of instrument that they were made on, and on no other', () => {
    const viola = setupOf('player: ines.player\ninstrument: viola\nD5', files);
    expect(viola.hand.experience).toBeUndefined();
    expect(viola.hand.skill.inTune).toBe(12);
  });

  it('whoever is asked for from outside plays with the own hand and size, on the instrument of the passage', () => {
    const player = choiceOf(readPlayer(INES), 'ines');
    const own = setupOf('instrument: violin\nhand: large\nplayer: none.player\nD5', { player });
    expect([own.instrument.name, own.hand.name]).toEqual(['violin 3/4', 'measured']);
    expect(setupOf('instrument: cello\nD5', { player }).instrument.name).toBe('cello');
    expect(read('player: none.player\nD5', { player }).problems).toEqual([]);
  });

  it('says at the place what is wrong with the file that it names', () => {
    const told = (text: string, overrides = files) =>
      read(text, overrides).problems.map(({ code, severity, span }) => [code, severity, text.slice(span.start, span.end)]);
    expect(told('player: nobody.player\nD5')).toEqual([['player-file', 'error', 'nobody.player']]);
    expect(told('player: odd.player\nD5', beside({ 'odd.player': 'foo\nbar' }))).toEqual([
      ['player-file', 'warning', 'odd.player'],
    ]);
    expect(told('player: ines.player\nD5')).toEqual([]);
    // Another path is another file, so no fix of a path is applied unasked.
    expect(told('player: ../ines.player\nD5')).toEqual([['player-file', 'error', '../ines.player']]);
    expect(
      read('player: ../ines.player\nD5', files).problems[0]!.fixes.map(({ title, certainty }) => [title, certainty]),
    ).toEqual([['Write ines.player', undefined]]);
  });

  it.each([
    ['../ines.player', 'leads out', 'ines.player'],
    ['a/../../ines.player', 'leads out', 'ines.player'],
    ['..\\ines.player', 'leads out', 'ines.player'],
    ['/srv/ines.player', 'one machine', 'ines.player'],
    ['\\\\coast\\ines.player', 'one machine', 'ines.player'],
    ['C:\\ines.player', 'one machine', 'ines.player'],
    ['~/ines.player', 'one machine', 'ines.player'],
    ['file:///srv/ines.player', 'one machine', 'ines.player'],
    ['https://coast.example/ines.player', 'the web', 'ines.player'],
    ['ines', 'ends in .player', 'ines.player'],
    ['ines.txt', 'ends in .player', 'ines.player'],
    ['./ines.player', 'plain path', 'ines.player'],
    ['players\\ines.player', 'plain path', 'players/ines.player'],
    ['a\u0000.player', 'signs', undefined],
    [`${'a'.repeat(300)}.player`, 'too long', undefined],
  ])('refuses the path %j', (path, why, near) => {
    const chosen = (text: string) => choosePlayerPath({ start: 0, end: text.length, text });
    const reading = chosen(path);
    expect(reading).toMatchObject({ faults: [{ why: expect.stringContaining(why) }] });
    if (!('faults' in reading)) return;
    const meant = reading.faults.flatMap(({ fixes }) => fixes.map(({ edits }) => edited(path, edits)));
    expect(meant[0]).toBe(near);
    for (const suggestion of meant) expect(chosen(suggestion)).toEqual({ value: suggestion });
  });
});

describe('ten failed attempts at a node', () => {
  const text = 'player: mattis.player\n1/4 F#6o [natural]';
  const tried = (line: string) => beside({ 'mattis.player': `name: Mattis\n${line}` });
  const untried = read(text, tried(''));
  const [before] = fingerings(untried);
  const node = /^(\w+) natural (\d\/\d)/.exec(before!)!;
  const failed = read(text, tried(`${node[1]} ${node[2]}: 0 of 10`));
  const shown = (known: typeof failed) => hoverAt(known, text.indexOf('F#6'), known.settings)?.markdown ?? '';

  it('make the solver leave it where another way is close', () => {
    const now = fingerings(failed)[0]!;
    expect(now).not.toContain(`${node[1]} natural ${node[2]}`);
    expect(now).toMatch(/natural/);
    // Ten good ones leave it where it was.
    expect(fingerings(read(text, tried(`${node[1]} ${node[2]}: 10 of 10`)))).toEqual([before]);
  });

  it('and the hover says so: the record, the model, and what both come to with its uncertainty', () => {
    expect(shown(untried)).not.toMatch(/came out clean/);
    // Beta with a prior of 6 attempts at the model's 0.98 and ten failures: mean 5.88/16, deviation sqrt(5.88*10.12/(16^2*17)).
    const mean = 5.88 / 16;
    const spread = Math.sqrt((5.88 * 10.12) / (16 ** 2 * 17));
    const often = (chance: number) => `${Math.round(chance * 10)} times in 10`;
    expect(shown(failed)).toContain(`${node[1]} ${node[2]} is left aside`);
    expect(shown(failed)).toContain('**0 of 10** came out clean; the model expects nearly always');
    expect(shown(failed)).toContain(
      `both together ${often(mean)}, or between ${often(mean - spread)} and ${often(mean + spread)}.`,
    );
    expect(shown(failed)).toContain('The model assumes an even string');
  });

  it('a way that is played tells of its record too', () => {
    const known = read(text, tried(`${node[1]} ${node[2]}: 10 of 10`));
    expect(shown(known)).toContain(`${node[1]} ${node[2]} as Mattis has tried it: **10 of 10** came out clean`);
  });

  it('and can be counted on from the hover, in the file that the passage names', () => {
    const target = { uri: 'file:///coast/a.passage', version: 1 };
    const markdown = hoverAt(failed, text.indexOf('F#6'), { ...failed.settings, target })?.markdown ?? '';
    const [, args = ''] = /\(command:passagework\.logAttempt\?(\S+)/.exec(markdown) ?? [];
    const [params] = JSON.parse(decodeURIComponent(args)) as [object];
    const [, string, at] = /^(\w+) natural (\d\/\d)/.exec(fingerings(failed)[0]!)!;
    expect(params).toEqual({ uri: target.uri, file: 'mattis.player', attempt: `${string} ${at}`, clean: true });
    expect(hoverAt(read('1/4 F#6o'), 5, { safeChance: 0.8, target })?.markdown).not.toContain('logAttempt');
  });

  it('a name is shown as it is written: it can’t make a hover run anything or load a picture', () => {
    const name = '[x](command:evil) ![y](https://coast.example/z.png) <img src=q>';
    const known = read(text, beside({ 'mattis.player': `name: ${name}\n${node[1]} ${node[2]}: 10 of 10` }));
    expect(shown(known)).toContain('has tried it');
    expect(shown(known)).not.toMatch(/(?<!\\)\]\(command:evil/);
    expect(shown(known)).not.toMatch(/(?<!\\)<img|(?<!\\)!\[y/);
  });

  it('a passage solved again after its player has changed is as if solved from scratch', () => {
    const longer = `player: mattis.player\n${'1/4 D6o F#6o [natural] A6o E6o | '.repeat(6)}`;
    const first = read(longer, tried(''));
    const [, string, at] = /^(\w+) natural (\d\/\d)/.exec(fingerings(first)[1]!)!;
    const now = tried(`${string} ${at}: 0 of 10`);
    const again = snapshot(longer, 2, DEFAULT_SETTINGS, first, now);
    const scratch = read(longer, now);
    expect(again.solutions[0]!.cost).toBe(scratch.solutions[0]!.cost);
    expect(fingerings(again)).toEqual(fingerings(scratch));
    expect(fingerings(again)).not.toEqual(fingerings(first));
  });
});

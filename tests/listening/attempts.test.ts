import { expect, test } from 'vitest';
import { attemptsIn } from '../../server/listening/attempts';
import type { HeardNote, HeardTake } from '../../server/listening/verdict';
import { triedWords } from '../../server/player/attempt-words';
import { logTake, unlogTake } from '../../server/player/log-take';
import { choiceOf } from '../../server/player/player-file';
import { readPlayer } from '../../server/player/read-player';
import type { Verdict } from '../../server/protocol/heard';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { snapshot } from '../../server/workspace/snapshot';
import { passageOf } from '../scene/solved';
import { reading, shorthand } from '../support/reading';

const PLAYER = 'name: Ines\n// by hand\nII fourth: 7 of 8\n';
const passage = passageOf('1/4 D6o [III 1/4] F#5<>B5 [II] A4 [open] B4 [II] ||');

function heard(event: number, verdict: Verdict, cents = 0, sure = 1): HeardNote {
  return { event, note: 0, verdict, onset: 0, end: 1, intonation: { cents, wander: 1 }, curve: { seconds: [], cents: [] }, sure };
}

function take(...notes: HeardNote[]): HeardTake {
  return { from: 0, to: 4, pace: 1, whole: true, notes };
}

test('sure notes are counted by string, form and node; open strings and unsure notes are not', () => {
  const takes = [
    take(heard(0, 'spoke'), heard(1, 'other'), heard(2, 'spoke'), heard(3, 'spoke', 20)),
    take(heard(0, 'late'), heard(1, 'spoke', 0, 0.5), heard(2, 'not-heard'), heard(3, 'spoke', 4)),
    take(heard(0, 'not-judged')),
  ];
  const counts = attemptsIn(takes, passage, 15).map(
    ({ tried, attempts }) => `${triedWords(tried)}: ${attempts.clean} of ${attempts.tried}`,
  );
  expect(counts).toEqual(['III 1/4: 1 of 2', 'II fourth: 0 of 1', 'II stopped: 1 of 2']);
});

test('a recording is counted once, and can be taken back; what was written stays', () => {
  const counts = attemptsIn([take(heard(0, 'spoke'), heard(1, 'other'))], passage, 15);
  const once = logTake(PLAYER, 'a1b2', counts)!;
  expect(readPlayer(once).problems).toEqual([]);
  expect(readPlayer(once).experience).toMatchObject({
    'II artificial 1/4': { clean: 7, tried: 9 },
    'III natural 1/4': { clean: 1, tried: 1 },
  });
  expect(logTake(once, 'a1b2', counts)).toBeUndefined();
  const back = unlogTake(once, 'a1b2')!;
  expect(readPlayer(back).experience['II artificial 1/4']).toEqual({ clean: 7, tried: 8 });
  expect(unlogTake(back, 'a1b2')).toBeUndefined();
  expect(logTake(back, 'a1b2', counts)).toBeDefined();
});

test('after ten failures the solver fingers the note elsewhere', () => {
  const text = '1/4 F#6o ||';
  const [before] = reading(text).solutions[0]!.events[0]!.fingering.ways;
  const scene = passageOf(text);
  const counts = attemptsIn([take(...Array.from({ length: 10 }, () => heard(0, 'other')))], scene, 15);
  const logged = readPlayer(logTake('', 'c3d4', counts)!);
  expect(Object.values(logged.experience)).toEqual([{ clean: 0, tried: 10 }]);
  const player = { player: choiceOf(logged, 'Ines') };
  const [after] = snapshot(text, 1, DEFAULT_SETTINGS, undefined, player).solutions[0]!.events[0]!.fingering.ways;
  expect(shorthand(after!)).not.toBe(shorthand(before!));
});

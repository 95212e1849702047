import { pathAt } from '../../grammar/at';
import type { Span } from '../../grammar/tree';
import { attemptKey, expected, uncertainty } from '../hand/attempts';
import { t } from '../l10n/translate';
import { type Tried, triedWords } from '../player/attempt-words';
import { COMMANDS, type LogParams } from '../protocol/messages';
import { often } from '../scene/words';
import { alternatives } from '../solver/alternatives';
import type { Solution } from '../solver/solution';
import { type TriedWay, triedWay } from '../solver/tried';
import type { Way } from '../solver/way';
import type { Action } from './action';
import { commandLink } from './command-link';
import { literal } from './literal';
import { type EventSpot, eventsAt } from './locate';
import type { LinkTarget } from './note-account';
import type { SolvedReading } from './reading';

/** Ways tried before and left aside that a hover tells of. */
const MOST_LEFT = 3;

/** A record that lies so many standard deviations off the model is told as a riddle of this string, not as bad luck. */
const SURPRISING = 2;

/** What the player has tried of an event, chosen or (with `others`) left aside, against what the model says; empty where nothing was. */
export function attemptsAccount(solution: Solution, event: number, others: boolean): string {
  if (!solution.passage.setup.hand.experience) return '';
  const chosen = solution.events[event]?.fingering.ways ?? [];
  const left = others ? leftLines(solution, event, chosen) : [];
  return [...chosen.flatMap(playedLine(solution)), ...left].map((line) => `- ${line}`).join('\n');
}

/** Links that count an attempt at an event as it is fingered; empty where no player file is named. */
export function attemptLinks({ passage, events }: Solution, event: number, target: LinkTarget): string {
  const file = passage.setup.player?.file;
  if (file === undefined) return '';
  return (events[event]?.fingering.ways ?? []).flatMap((way) => logLinks(way, target, file)).join('  \n');
}

function playedLine({ passage }: Solution): (way: Way) => readonly string[] {
  const { player } = passage.setup;
  return (way) => {
    const tried = triedWay(way, passage.setup);
    return tried
      ? [
          followed(
            t('{way} as {player} has tried it: {record}.', {
              way: triedName(way),
              player: literal(player?.name ?? t('the player')),
              record: record(tried),
            }),
            riddle(tried),
          ),
        ]
      : [];
  };
}

/** Other ways that were tried before: the solver knows the record, so a bad one is why a place is left. */
function leftLines(solution: Solution, event: number, chosen: readonly Way[]): readonly string[] {
  const { setup } = solution.passage;
  const seen = new Set(chosen.map(keyOf));
  const lines: string[] = [];
  for (const { fingering, extraCost } of alternatives(solution, event)) {
    for (const way of fingering.ways) {
      const tried = seen.has(keyOf(way)) ? undefined : triedWay(way, setup);
      seen.add(keyOf(way));
      if (!tried || lines.length === MOST_LEFT) continue;
      const holes = { way: triedName(way), cost: extraCost.toFixed(2), record: record(tried) };
      const why =
        expected(tried.belief) < tried.model
          ? t('{way} is left aside (+{cost}): {record}.', holes)
          : t('{way} is not needed here (+{cost}): {record}.', holes);
      lines.push(followed(why, riddle(tried)));
    }
  }
  return lines;
}

/** `0 of 10 came out clean; the model expects nearly always, both together 4 times in 10, or between 2 times in 10 and 5 times in 10` */
function record({ model, attempts, belief }: TriedWay): string {
  const [share, spread] = [expected(belief), uncertainty(belief)];
  const [least, most] = [often(share - spread), often(share + spread)];
  const holes = { clean: attempts.clean, tried: attempts.tried, model: often(model), share: often(share) };
  return least === most
    ? t('**{clean} of {tried}** came out clean; the model expects {model}, both together {share}', holes)
    : t(
        '**{clean} of {tried}** came out clean; the model expects {model}, both together {share}, or between {least} and {most}',
        { ...holes, least, most },
      );
}

/** Two sentences, the second only where there is one. */
function followed(first: string, second: string): string {
  return second ? `${first} ${second}` : first;
}

function riddle({ model, belief }: TriedWay): string {
  const below = model - expected(belief);
  return below > SURPRISING * uncertainty(belief)
    ? t(
        'The model assumes an even string and a well-placed bow; with a record this much worse, try bowing elsewhere first, then another string.',
      )
    : '';
}

function keyOf({ stringName, kind, touch }: Way): string {
  return attemptKey(stringName, kind, touch);
}

function triedName(way: Way): string {
  const tried = triedOf(way);
  return tried ? triedWords(tried) : way.stringName;
}

/** What an attempt at this way would be called in a player file; undefined for an open string, which needs none. */
export function triedOf({ stringName, kind, interval, touch }: Way): Tried | undefined {
  if (kind === 'open') return undefined;
  return {
    string: stringName,
    kind,
    ...(interval && { interval }),
    ...(touch && { node: { k: touch.k, n: touch.n } }),
  };
}

function logLinks(way: Way, { uri }: LinkTarget, file: string): readonly string[] {
  const tried = triedOf(way);
  if (!tried) return [];
  const attempt = triedWords(tried);
  const link = (title: string, clean: boolean) => {
    const params: LogParams = { uri, file, attempt, clean };
    return `[${title}](${commandLink(COMMANDS.logAttempt, [params])} "${t('Count it in {file}', { file })}")`;
  };
  return [
    t('Just tried {attempt}? {clean} · {notClean}', {
      attempt,
      clean: link(t('clean'), true),
      notClean: link(t('not clean'), false),
    }),
  ];
}

/** Counts an attempt at the note under the cursor in the player's file, as it is fingered. */
export function attemptActions(reading: SolvedReading, span: Span): readonly Action[] {
  const found = attemptsAt(reading, span.start);
  return (found?.attempts ?? []).flatMap((attempt) =>
    [true, false].map(
      (clean): Action => ({
        title: clean
          ? t('Log an attempt at {attempt}: clean', { attempt })
          : t('Log an attempt at {attempt}: not clean', { attempt }),
        kind: 'rewrite',
        edits: [],
        log: { file: found?.file ?? '', attempt, clean },
      }),
    ),
  );
}

/** What would be tried at a place, as fingered, and in which player file it counts; undefined where no player file is named. */
export function attemptsAt(
  { tree, resolved, solutions }: SolvedReading,
  offset: number,
): { readonly file: string; readonly attempts: readonly string[] } | undefined {
  const spots: readonly EventSpot[] = eventsAt(resolved.passages, pathAt(tree, offset));
  const [spot] = spots;
  const solution = spot && solutions[spot.passage];
  const file = solution?.passage.setup.player?.file;
  if (!solution || file === undefined || spots.length > 1) return undefined;
  const tried = (solution.events[spot.event]?.fingering.ways ?? []).flatMap((way) => triedOf(way) ?? []);
  return { file, attempts: [...new Set(tried.map(triedWords))] };
}

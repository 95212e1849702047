import { doubleStopIntonation } from '../instrument/beats';
import { later, t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import type { Setup } from '../passage/passage';
import { COMMANDS, type PinParams } from '../protocol/messages';
import { breakingWords } from '../scene/breaking-words';
import { positionWords } from '../scene/position-words';
import { reasonFor } from '../scene/reason';
import { breakingIn, sceneNote } from '../scene/scene';
import { unplayableWords } from '../scene/unplayable-words';
import { centsWords, fingerWords, intervalWords, mmWords, often, PAIN, printedPitch } from '../scene/words';
import { centsOff } from '../solver/chances';
import { outOfTheOrdinary } from '../solver/habits';
import { stepAt } from '../solver/read';
import type { Solution, SolvedEvent } from '../solver/solution';
import { TERMS } from '../solver/terms';
import type { Way } from '../solver/way';
import { attemptLinks, attemptsAccount } from './attempts';
import { commandLink } from './command-link';
import type { EventSpot } from './locate';
import { otherWays } from './other-ways';
import { pictureAddress, stringPicture } from './picture';
import type { SolvedReading } from './reading';
import { bowing, leftHand, sameSpot } from './technique';

/** Alternatives shown in a hover; more would push the first ones out of sight. */
const MOST_ALTERNATIVES = 5;

/** For every shape that opens the hand beyond what is comfortable. */
const STRETCH_CAUTION = later('This opens the hand beyond what is comfortable: warm up, and rest often. {pain}');

/** Which document the links of an account act on; absent where the editor has no such links. */
export interface LinkTarget {
  readonly uri: string;
  readonly version: number;
}

/** What is said instead of other ways where they are not told. */
const COMING = later('Still working out other ways to play it. Hover here again in a moment.');

/**
 * How one event is played, as Markdown: what it is, where, and why there, short enough to be read at a glance; below a rule what the
 * hands do, what else could be done (where `others` is false, that this is still worked out), and the figures.
 */
export function noteAccount(reading: SolvedReading, spot: EventSpot, target: LinkTarget | undefined, others = true): string {
  const solution = reading.solutions[spot.passage];
  const solved = solution?.events[spot.event];
  if (!solution) return '';
  if (!solved) {
    const unplayable = solution.unplayables.find(({ event }) => event === spot.event);
    return unplayable ? t('**No way to play this.** {why}', { why: unplayableWords(unplayable) }) : '';
  }
  const { instrument } = solution.passage.setup;
  const { ways, barred } = solved.fingering;
  if (ways.length === 0) return '';
  const { spec } = solution.passage.events[spot.event]!;
  const notes = ways.map((way) => sceneNote(way, false));
  const hands = ways.flatMap((way) => [
    ...leftHand(way, instrument),
    ...sameSpot(solution.passage, solution, spot.event, way),
    ...bowing(way, instrument, spec),
  ]);
  if (barred) hands.push(t('One finger covers both strings.'));
  hands.push(...breakingWords(breakingIn(solved.fingering, spec)));
  if (solved.terms.stretch) hands.push(t(STRETCH_CAUTION, { pain: t(PAIN) }));
  return [
    ways.map((way) => heading(way)).join('  \n'),
    glance(solution, spot.event, solved),
    `![${t('The string from nut to bridge')}](${pictureAddress(stringPicture(instrument, notes))})`,
    '---',
    // One that the hands would say twice, as of a finger over two strings, is said once.
    [...new Set(hands)].map((sentence) => `- ${sentence}`).join('\n'),
    attemptsAccount(solution, spot.event, others),
    target ? attemptLinks(solution, spot.event, target) : '',
    others ? choices(solution, spot, target) : t(COMING),
    accuracy(solved, expected(solution, spot.event)),
    ways.map((way) => soundsAt(way, ways.length > 1)).join('  \n'),
    together(ways),
    terms(solved, solution.passage.setup),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
}

/** `**D6** natural harmonic, III at 1/3, second finger`. */
function heading(way: Way): string {
  return `**${printedPitch(pitchName(way.sounding))}** ${manner(way)}`;
}

function manner({ kind, stringName, touch, stop, interval }: Way): string {
  const finger = (at: typeof stop) => (at ? fingerWords(String(at.finger)) : '');
  switch (kind) {
    case 'open':
      return t('open string {string}', { string: stringName });
    case 'stopped':
      return t('stopped on {string}, {finger}', { string: stringName, finger: finger(stop) });
    case 'natural':
      return t('natural harmonic, {string} at {k}/{n}, {finger}', {
        string: stringName,
        k: touch?.k ?? 0,
        n: touch?.n ?? 0,
        finger: finger(touch),
      });
    case 'artificial':
      return t('{interval} harmonic on {string}, {stop} under {touch}', {
        interval: intervalWords(interval),
        string: stringName,
        stop: finger(stop),
        touch: finger(touch),
      });
  }
}

/** `Why: keeps 3rd position. Clean and in tune **nearly always**.` */
function glance(solution: Solution, event: number, { chance }: SolvedEvent): string {
  const reason = reasonFor(solution, event);
  const position = positionWords(solution, event)?.words;
  const sentences = [t('Clean and in tune **{chance}**.', { chance: often(chance) })];
  if (reason !== undefined) sentences.unshift(t('Why: {reason}.', { reason }));
  if (position !== undefined && !reason?.includes(position)) sentences.unshift(t('Hand: {position}.', { position }));
  return sentences.join(' ');
}

/** `Sounds at 1175.5 Hz, -2 cents`, of the string's own stiffness apart. */
function soundsAt(way: Way, named: boolean): string {
  const cents = centsWords(way.cents);
  const sound = t('{hz} Hz', { hz: way.hz.toFixed(1) });
  const stiffness = way.kind === 'natural' && way.stiffness >= 1 ? centsWords(way.stiffness) : '';
  const exactly = !cents
    ? sound
    : stiffness
      ? t('{sound}, {cents} ({stiffness} from the stiffness of the string)', { sound, cents, stiffness })
      : t('{sound}, {cents}', { sound, cents });
  return named
    ? t('{pitch} sounds at {exactly}.', { pitch: printedPitch(pitchName(way.sounding)), exactly })
    : t('Sounds at {exactly}.', { exactly });
}

/** The interval of a double stop against the pure one. */
function together([a, b, ...more]: readonly Way[]): string {
  // The notes of a chord are broken, two by two at most: no interval of it is held to be heard.
  if (!a || !b || more.length > 0) return '';
  const { just, cents, beats } = doubleStopIntonation(a.hz, b.hz);
  const off = centsWords(cents);
  const { upper, lower } = just;
  return off
    ? t('Together: {upper}:{lower}, {off}, {beats} beats a second.', { upper, lower, off, beats: beats.toFixed(1) })
    : t('Together: {upper}:{lower}, pure.', { upper, lower });
}

/** How far off to expect it. One standard deviation either side holds two times in three. */
function expected(solution: Solution, event: number): string {
  const step = stepAt(solution, event);
  const cents = step && centsOff(solution.work.lattice.columns[event]!.states, solution.work.path[event]!, step);
  return cents === undefined
    ? ''
    : t('Expect to land within {cents} cents two times in three.', { cents: Math.max(1, Math.round(cents)) });
}

function accuracy({ fingering }: SolvedEvent, off: string): string {
  const room = fingering.ways.flatMap(({ tolerance }) => (tolerance === undefined ? [] : [tolerance]));
  const least = room.length ? t('The finger may miss by {room} either way.', { room: mmWords(Math.min(...room)) }) : '';
  return [least, off].filter((part) => part !== '').join(' ');
}

/** The parts of an event's cost that stand out, dearest first, so a reader can see why it was fingered so. */
function terms({ terms: parts, cost }: SolvedEvent, setup: Setup): string {
  const dear = outOfTheOrdinary(parts, setup);
  if (dear.length === 0) return '';
  return t('Cost {cost}, mainly: {terms}.', {
    cost: cost.toFixed(2),
    terms: dear.map(([name, nats]) => `${t(TERMS[name])} ${nats.toFixed(2)}`).join('; '),
  });
}

function choices(solution: Solution, { passage, event }: EventSpot, target: LinkTarget | undefined): string {
  const all = otherWays(solution, event);
  if (all.length === 0) return t('No other way is possible here with these hints and this hand.');
  const lines = all.slice(0, MOST_ALTERNATIVES).map(({ alternative, label, extraCost }) => {
    const extra = t('+{cost} for the whole passage', { cost: extraCost.toFixed(2) });
    if (!target) return `- ${label} (${extra})`;
    const params: PinParams = { ...target, passage, event, alternative };
    return `- [${label}](${commandLink(COMMANDS.pin, [params])} "${t('Write this fingering into the text')}") (${extra})`;
  });
  if (all.length > MOST_ALTERNATIVES) lines.push(`- ${t('and {count} more', { count: all.length - MOST_ALTERNATIVES })}`);
  return `${t('Other ways:')}\n${lines.join('\n')}`;
}

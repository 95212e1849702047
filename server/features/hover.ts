import { absolute, covering, covers, type Path, pathAt } from '../../grammar/at';
import { settingKey } from '../../grammar/settings';
import type { NoteNode, Span } from '../../grammar/tree';
import { handWords } from '../hand/hands';
import { later, t } from '../l10n/translate';
import type { Passage } from '../passage/passage';
import type { Settings } from '../protocol/settings';
import { spotWords } from '../scene/spot-words';
import { listed, often } from '../scene/words';
import { countAtRisk, isLong, spotsAtRisk } from '../solver/risks';
import type { Solution } from '../solver/solution';
import { hintMeaning } from './hint-words';
import { literal } from './literal';
import { eventsAt, firstPlayed, noteAt, passageOn } from './locate';
import { markHelp } from './mark-help';
import { motifAccount } from './motifs';
import { type LinkTarget, noteAccount } from './note-account';
import type { Reading, SolvedReading } from './reading';
import { safeTempoWords } from './safe-tempo';

export interface Hover {
  readonly span: Span;
  readonly markdown: string;
}

export interface HoverOptions extends Pick<Settings, 'safeChance'> {
  readonly target?: LinkTarget | undefined;
  /** Unless false, other ways to play a note are told, which take a look at the whole passage. */
  readonly others?: boolean;
}

/** What is said of notes whose fingering is not there yet. */
const COMING = later('Still working out how to play this. Hover here again in a moment.');

/**
 * What can be said about the place under the pointer; of a reading without fingerings, what the text alone tells. `safeChance` is what
 * a tempo must leave to be called safe; `target` makes the alternatives links that apply themselves.
 */
export function hoverAt(known: Reading | SolvedReading, offset: number, options: HoverOptions): Hover | undefined {
  const reading: SolvedReading = 'solutions' in known ? known : { ...known, solutions: [] };
  const spot = pathAt(reading.tree, offset);
  const { node } = spot.line;
  if (node.comment && spot.column >= node.comment.start) return undefined;
  switch (node.kind) {
    case 'setting':
      return settingHover(spot);
    case 'passage':
      return passageHover(reading, spot, options.safeChance);
    case 'music':
    case 'motif':
      return musicHover(reading, spot, options);
    default:
      return undefined;
  }
}

function settingHover(spot: Path): Hover | undefined {
  if (spot.line.node.kind !== 'setting' || !covers(spot.line.node.key, spot.column)) return undefined;
  const setting = settingKey(spot.line.node.key.text);
  if (!setting) return undefined;
  const place = setting.betweenBars
    ? t('Before the first passage it applies to the whole file; inside a passage, to that passage; between bars, from there on.')
    : t('Before the first passage it applies to the whole file; after that, to its own passage.');
  return {
    span: absolute(spot.line, spot.line.node.key),
    markdown: `**${setting.key}** ${t(setting.meaning)}\n\n\`${setting.key}: ${setting.example}\`\n\n${place}`,
  };
}

function passageHover({ resolved, solutions }: SolvedReading, { line, index }: Path, safeChance: number): Hover | undefined {
  const at = passageOn(resolved.passages, index);
  const passage = resolved.passages[at];
  const solution = solutions[at];
  if (!passage) return undefined;
  const head = t('**{title}** for {instrument}, {whose}', {
    title: literal(passage.title),
    instrument: passage.setup.instrument.name,
    whose: whose(passage),
  });
  const span = { start: line.start, end: line.end };
  if (!solution) return { span, markdown: `${head}\n\n${t(COMING)}` };
  const events = passage.events.length;
  const stuck = solution.unplayables.length;
  const state = stuck
    ? t('{stuck} of {events} notes cannot be played.', { stuck, events })
    : `${t('{count} notes; {run}', { count: events, run: runWords(solution) })}\n\n${safeTempoWords(solution, safeChance)}`;
  return { span, markdown: `${head}\n\n${state}` };
}

/** How often all of it comes out, and the spots that decide it; of a long passage the spots alone. */
function runWords(solution: Solution): string {
  const spots = spotsAtRisk(solution).map((event) => spotWords(solution, event));
  const sentences = isLong(solution)
    ? [t('{count} spots at risk.', { count: countAtRisk(solution) })]
    : [t('all clean and in tune **{chance}**.', { chance: often(solution.clean) })];
  if (spots.length) sentences.push(t('At risk: {spots}.', { spots: listed(spots) }));
  else if (!isLong(solution)) sentences.push(t('No note stands out.'));
  return sentences.join(' ');
}

function whose({ setup: { player, hand } }: Passage): string {
  return player ? t('played by {player}', { player: literal(player.name) }) : handWords(hand.name);
}

function musicHover(reading: SolvedReading, spot: Path, options: HoverOptions): Hover | undefined {
  const { line, column, note, hints } = spot;
  const hint = hints && covering(hints.hints, column);
  if (hint) {
    const span = absolute(line, hint);
    return { span, markdown: hintMeaning(hint, reading.tree.text.slice(span.start, span.end)) };
  }
  const mark = markHelp(spot);
  if (mark) return { span: absolute(line, mark.span), markdown: mark.markdown };
  if (note) return noteHover(reading, spot, note, options);
  const item = spot.items.at(-1);
  const markdown = item?.kind === 'motif' || line.node.kind === 'motif' ? motifAccount(reading, spot) : undefined;
  return markdown ? { span: absolute(line, item ?? (line.node.kind === 'motif' ? line.node.name : line)), markdown } : undefined;
}

function noteHover(reading: SolvedReading, spot: Path, note: NoteNode, { target, others }: HoverOptions): Hover | undefined {
  const { passages } = reading.resolved;
  const [written] = eventsAt(passages, spot);
  const event = written ?? firstPlayed(passages, spot);
  const markdown = event && (reading.solutions[event.passage] ? noteAccount(reading, event, target, others) : t(COMING));
  if (!markdown) return undefined;
  const place = written?.source.source.notes[noteAt(written.source, spot.column)]?.form ?? note.form;
  return {
    span: absolute(spot.line, place),
    markdown: written ? markdown : `${t('Where the motif is first used:')}\n\n${markdown}`,
  };
}

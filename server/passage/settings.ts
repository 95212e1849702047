import { lifted, liftedFix } from '../../grammar/at';
import { cantBeRead } from '../../grammar/entry';
import { lineBreakOf } from '../../grammar/parse';
import { quoted } from '../../grammar/problems';
import { SETTINGS, settingKey } from '../../grammar/settings';
import type { Fix, SettingLine, Span, Tree } from '../../grammar/tree';
import type { Reading } from '../../grammar/values/read-value';
import type { Family } from '../instrument/instrument';
import { t } from '../l10n/translate';
import { error, type PassageProblem } from './problem';
import { familyOf, type Overrides, type Values } from './setup';
import { chooseValue, isSettingKey, type SettingKey, type SettingValues } from './values';

/** A setting as it stands in the file; spans are offsets in the file. */
export interface WrittenSetting {
  readonly key: SettingKey;
  readonly line: number;
  readonly keySpan: Span;
  readonly valueSpan: Span;
  /** `onward`: from its line to the end of the passage, or to the next one of its key. */
  readonly scope: 'file' | 'passage' | 'onward';
  /** Index of the passage it belongs to; absent for the file's own. */
  readonly passage?: number;
  /** As read; absent where it could not be. */
  readonly value?: SettingValues[SettingKey];
}

/** A setting line and where it is. */
export interface SettingPlace {
  readonly node: SettingLine;
  readonly line: number;
}

/** What reading settings adds to. */
export interface SettingNotes {
  readonly tree: Tree;
  readonly written: WrittenSetting[];
  readonly problems: PassageProblem[];
}

type Scope = Pick<WrittenSetting, 'scope' | 'passage'>;

/** Settings that stand together before the music of a file or passage: the later of two of one key holds. */
export function readHead(
  places: readonly SettingPlace[],
  inherited: Values,
  scope: Scope,
  notes: SettingNotes,
  overrides: Overrides,
): Values {
  const family = familyOf({ ...inherited, ...lastOf(places, 'instrument'), ...lastOf(places, 'player') }, overrides);
  // Open strings belong to their instrument; they don't go over to another.
  const { tuning, ...others } = inherited;
  const keepsTuning = tuning !== undefined && (typeof tuning === 'string' || family === familyOf(inherited, overrides));
  let values: Values = keepsTuning ? inherited : others;
  const seen = new Map<SettingKey, SettingPlace>();
  for (const place of places) {
    const key = place.node.key.text;
    if (!isSettingKey(key)) continue;
    // Marks stand over the music; a passage may have any number.
    if (key === 'mark') {
      readSetting(place, key, family, scope, notes);
      continue;
    }
    const first = seen.get(key);
    if (first) notes.problems.push(twice(first, place, notes.tree));
    seen.set(key, place);
    const read = readSetting(place, key, family, scope, notes);
    if (read.player !== undefined) notes.problems.push(...playerProblems(read.player, place, notes.tree, overrides));
    values = { ...values, ...read };
  }
  return values;
}

/** What the last line of a key says, if it can be read. Neither kind of instrument nor player hangs on the other values. */
function lastOf(places: readonly SettingPlace[], key: 'instrument' | 'player'): Values {
  const last = places.findLast(({ node }) => node.key.text === key);
  const reading = last && readValue(last.node, key, 'violin');
  return reading && 'value' in reading ? { [key]: reading.value } : {};
}

/** A setting between bars: what it changes from there on, or a problem where it holds for a whole passage. */
export function readOnward(place: SettingPlace, family: Family, passage: number, head: number, notes: SettingNotes): Values {
  const key = place.node.key.text;
  if (!isSettingKey(key)) return {};
  if (settingKey(key)?.betweenBars) return readSetting(place, key, family, { scope: 'onward', passage }, notes);
  notes.problems.push(misplaced(place, head, notes.tree));
  return {};
}

function readSetting({ node, line }: SettingPlace, key: SettingKey, family: Family, scope: Scope, notes: SettingNotes): Values {
  const start = notes.tree.lines[line]?.start ?? 0;
  const reading = readValue(node, key, family);
  const value = reading && 'value' in reading ? reading.value : undefined;
  const [keySpan, valueSpan] = [lifted(node.key, start), lifted(node.value, start)];
  notes.written.push({ key, line, keySpan, valueSpan, ...scope, ...(value !== undefined && { value }) });
  if (reading && 'value' in reading) return { [key]: reading.value };
  // Another path is another file: whether it is the one that was meant is not for a fix to decide unasked.
  const code = key === 'player' ? 'player-file' : 'setting-value';
  for (const { span, why, fixes } of reading?.faults ?? []) {
    const lifts = fixes.map((fix) => liftedFix(fix, start));
    notes.problems.push(error(code, lifted(span, start), cantBeRead(key, why), lifts));
  }
  return {};
}

/** What is wrong with the file of a player, told where the passage names it. Whoever plays instead makes it beside the point. */
function playerProblems(path: string, { node, line }: SettingPlace, tree: Tree, overrides: Overrides): readonly PassageProblem[] {
  if (overrides.player) return [];
  const answer = overrides.players?.(path) ?? { missing: t('no files can be read here') };
  const span = lifted(node.value, tree.lines[line]?.start ?? 0);
  if ('missing' in answer) {
    const message = t(
      "The player file {path} can't be used: {missing}. Until then, this line is ignored. Put the file beside this one, or remove the line.",
      { path: quoted(path), missing: answer.missing },
    );
    return [error('player-file', span, message, [removedLine(line, tree)])];
  }
  if (answer.faults === 0) return [];
  const holes = { path: quoted(path) };
  const message =
    answer.faults === 1
      ? t(
          "One line of the player file {path} can't be read and does not count; the rest does. Open the file: each is marked there.",
          holes,
        )
      : t(
          "{count} places of the player file {path} can't be read and do not count; the rest does. Open the file: each is marked there.",
          { ...holes, count: answer.faults },
        );
  return [{ ...error('player-file', span, message), severity: 'warning' }];
}

const readings = new WeakMap<SettingLine, Map<Family, Reading<SettingValues[SettingKey]>>>();

/** The value once for each instrument, so that an unchanged line keeps giving the same object; undefined where it is badly written. */
function readValue<K extends SettingKey>(node: SettingLine, key: K, family: Family): Reading<SettingValues[K]> | undefined {
  if (!node.parts) return undefined;
  const known = readings.get(node) ?? new Map<Family, Reading<SettingValues[SettingKey]>>();
  readings.set(node, known);
  const reading = known.get(family) ?? chooseValue(key, node.parts, node.value, family);
  known.set(family, reading);
  return reading as Reading<SettingValues[K]>;
}

function twice(first: SettingPlace, second: SettingPlace, tree: Tree): PassageProblem {
  const keySpan = ({ node, line }: SettingPlace) => lifted(node.key, tree.lines[line]?.start ?? 0);
  const holes = { key: first.node.key.text, line: second.line + 1 };
  const message = t('This {key} is set again on line {line}, and that one counts. Remove one of them.', holes);
  return {
    ...error('setting-twice', keySpan(first), message, [removedLine(first.line, tree)]),
    severity: 'warning',
    related: [{ span: keySpan(second), message: t('the one that counts') }],
  };
}

/** Takes a setting away, and its line with it unless a comment stands there. */
function removedLine(line: number, tree: Tree): Fix {
  const { start, node } = tree.lines[line] ?? { start: 0 };
  if (node?.comment) {
    return {
      title: t('Remove this setting, keep its comment'),
      edits: [{ span: { start, end: start + node.comment.start }, text: '' }],
    };
  }
  return { title: t('Remove this line'), edits: [{ span: wholeLine(line, tree), text: '' }] };
}

/** A line with its break, or, at the end of the file, with the break before it. */
function wholeLine(line: number, tree: Tree): Span {
  const { start, end } = tree.lines[line] ?? { start: 0, end: 0 };
  const next = tree.lines[line + 1];
  const before = tree.lines[line - 1];
  return next ? { start, end: next.start } : { start: before?.end ?? start, end };
}

function misplaced({ node, line }: SettingPlace, head: number, tree: Tree): PassageProblem {
  const own = tree.lines[line] ?? { start: 0, end: 0 };
  const before = tree.lines[head]?.start ?? 0;
  const free = SETTINGS.filter(({ betweenBars }) => betweenBars).map(({ key }) => key);
  const key = node.key.text;
  const message = t(
    "The {key} holds for a whole passage, so it can't change after the first note; between bars only {free} can. Move it above the music, or start a new passage here.",
    { key, free: free.join(', ') },
  );
  const edits = [
    { span: { start: before, end: before }, text: `${tree.text.slice(own.start, own.end)}${lineBreakOf(tree.text)}` },
    { span: wholeLine(line, tree), text: '' },
  ];
  const title = t('Move {key} above the music', { key: quoted(key) });
  return error('setting-place', lifted(node.key, own.start), message, [{ title, edits }]);
}

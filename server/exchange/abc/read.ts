import type { Family } from '../../instrument/instrument';
import { t } from '../../l10n/translate';
import type { Losses } from '../score/losses';
import type { Measure } from '../score/measure';
import { familyNamed, oneLine, type Score, type ScorePart } from '../score/score';
import { Unreadable } from '../unreadable';
import { parseTune, type Staff, type Tune, tunesIn, type Warning } from './tune';
import { Voice } from './voice';

/** True for text that has the mark of the format, or a field with which every tune of ABC 2.1 begins (2.1, 2.2.1), and is no XML. */
export function isAbc(source: Uint8Array | string): boolean {
  const start = textOf(source.slice(0, 2 ** 16));
  return !/^\s*</.test(start) && /^(?:%abc|X:|K:)/m.test(start);
}

/**
 * One tune of an ABC text (ABC 2.1, 2011), by its number or the first. Each staff is a part; voices that share one are read together.
 * `alone` where the other tunes are not read beside it, which is then told.
 *
 * @throws Unreadable where there is no tune in it, or none of that number.
 */
export function readAbc(source: Uint8Array | string, wanted?: string, alone = true): Score {
  const text = textOf(source);
  const { tune, warnings, others } = parseTune(text, wanted);
  const lines = tune.lines.flatMap(({ staff }) => (staff ? [staff] : []));
  const count = Math.max(0, ...lines.map((staves) => staves.length));
  const staves = Array.from({ length: count }, (_, i) => lines.flatMap((line) => line[i] ?? []));
  const sounding = staves.filter((staff) => staff.some(({ voices }) => voices.flat().some((s) => s.pitches !== undefined)));
  if (sounding.length === 0) throw new Unreadable(t('No tune in it has notes. Write them after the K: line.'));
  const { title, composer, origin, copyright } = tune.metaText;
  const credits = Object.entries({ composer, origin, rights: copyright }).flatMap(([what, said]) =>
    typeof said === 'string' && said !== '' ? [oneLine(`${what}: ${said}`)] : [],
  );
  const tell = (losses: Losses) => report(losses, tune, warnings, alone ? others : 0);
  return {
    credits,
    fields: new Map(),
    tunes: tunesIn(text),
    parts: sounding.map((staff, i) => partOf(staff, i, sounding.length, tune, tell)),
    ...(title && { work: oneLine(title) }),
  };
}

function partOf(systems: readonly Staff[], index: number, of: number, tune: Tune, tell: (losses: Losses) => void): ScorePart {
  const names = systems.find(({ title }) => title?.some((name) => name))?.title?.filter((name) => name) ?? [];
  const name =
    names.length > 0 ? oneLine(names.join(', ')) : of === 1 ? t('the tune') : t('voice {number}', { number: index + 1 });
  const byClef = familyByClef(systems[0]?.clef?.type ?? '');
  const named = familyNamed([name]);
  const family = named ?? byClef;
  return {
    id: String(index + 1),
    name,
    family,
    measures: (losses) => {
      tell(losses);
      if (!named) losses.assumed('', t('the instrument, as the tune names none'), t('{family}, by its clef', { family }));
      return together(voicesOf(systems, tune, losses));
    },
  };
}

function familyByClef(clef: string): Family {
  return clef.startsWith('alto') ? 'viola' : /^(?:bass|tenor)/.test(clef) ? 'cello' : 'violin';
}

/** What of the file is told with every part of it. */
function report(losses: Losses, { metaText }: Tune, warnings: readonly Warning[], others: number): void {
  if (others > 0) losses.leftOut('', t('the other tunes of the file'), `${others}`);
  if (metaText.partOrder !== undefined) losses.leftOut('', t('the order in which the parts are played (P:)'));
  for (const { message, line, column } of warnings) {
    // It only says which lengths can't be printed as one note; a passage ties them.
    if (message.startsWith('Duration not representable')) continue;
    losses.leftOut(
      '',
      t('something in the text that can’t be read'),
      oneLine(t('{message}, in “{text}”', { message, text: line.slice(column, column + 24) })),
    );
  }
}

/** The voices of a staff, system after system; a sign that every system repeats is a change where it differs. */
function voicesOf(systems: readonly Staff[], tune: Tune, losses: Losses): readonly (readonly Measure[])[] {
  const count = Math.max(...systems.map(({ voices }) => voices.length));
  return Array.from({ length: count }, (_, index) => {
    const voice = new Voice(losses, String(index + 1));
    let before: { clef?: string; key?: string } = {};
    for (const [i, { clef, key, meter, voices }] of systems.entries()) {
      const said = { clef: clef?.type ?? '', key: JSON.stringify(key?.accidentals) };
      if (meter) voice.meter(meter);
      if (key && said.key !== before.key) voice.key(key);
      if (clef && said.clef !== before.clef) voice.clef(clef);
      if (i === 0 && tune.metaText.tempo) voice.tempo(tune.metaText.tempo);
      before = said;
      for (const sign of voices[index] ?? []) {
        voice.read(sign);
        if (sign.el_type === 'key') before = { ...before, key: JSON.stringify(sign.accidentals) };
        if (sign.el_type === 'clef') before = { ...before, clef: sign.type ?? '' };
      }
    }
    return voice.end();
  });
}

/** Voices of one staff bar by bar: the first says what the bar is, the others add their notes. */
function together(voices: readonly (readonly Measure[])[]): readonly Measure[] {
  const [first = [], ...others] = voices;
  return first.map((measure, i) => {
    const same = others.flatMap((voice) => voice[i] ?? []).filter(({ chords }) => chords.some((c) => c.notes.length > 0));
    if (same.length === 0) return measure;
    const lengths = [measure, ...same].map(({ length }) => length);
    return {
      ...measure,
      length: lengths.reduce((a, b) => (a.compare(b) >= 0 ? a : b)),
      chords: [measure, ...same].flatMap(({ chords }) => chords),
      graces: [measure, ...same].flatMap(({ graces }) => graces),
      directions: [measure, ...same].flatMap(({ directions }) => directions),
    };
  });
}

/** ABC 2.1 (2.2) takes UTF-8 where nothing else is said; older files are in Latin-1. */
function textOf(source: Uint8Array | string): string {
  const text = typeof source === 'string' ? source : decoded(source);
  return text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
}

function decoded(source: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(source, { stream: true });
  } catch {
    return new TextDecoder('windows-1252').decode(source);
  }
}

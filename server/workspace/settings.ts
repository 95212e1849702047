import { whyOf } from '../../grammar/values/read-value';
import { t } from '../l10n/translate';
import type { Values } from '../passage/setup';
import { valueFrom } from '../passage/values';
import { PROJECT_FILE, type Settings } from '../protocol/settings';
import { LEVELS, type Level, type Levels } from '../rules/levels';
import { baselineIn } from './baseline';
import { readProject, withProject } from './project';

/** The section of an editor's configuration that holds our settings. */
export const SECTION = 'passagework';

/** A setting in the file always wins over `instrument` and `hand`. */
export const DEFAULT_SETTINGS: Settings = {
  instrument: '',
  hand: '',
  safeChance: 0.8,
  rules: {},
  fingeringHints: 'changes',
  passageLens: true,
  referenceNotes: false,
  known: [],
};

/**
 * Reads what an editor sends; anything missing or of the wrong kind keeps its default. The text of the file's project, where the
 * editor sends that along, comes first.
 */
export function readSettings(raw: unknown): Settings {
  const given = isRecord(raw) ? raw : {};
  const chance = given.safeChance;
  const project = typeof given.project === 'string' ? readProject(given.project).project : undefined;
  const baseline = typeof given.baseline === 'string' ? baselineIn(given.baseline) : undefined;
  const own: Settings = {
    instrument: text(given.instrument),
    hand: text(given.hand),
    safeChance: typeof chance === 'number' && chance > 0 && chance < 1 ? chance : DEFAULT_SETTINGS.safeChance,
    rules: levels(given.rules),
    fingeringHints: hintsShown(given.fingeringHints),
    passageLens: flag(given.passageLens, DEFAULT_SETTINGS.passageLens),
    referenceNotes: flag(given.referenceNotes, DEFAULT_SETTINGS.referenceNotes),
    known: baseline?.findings[text(given.recordedAs)] ?? [],
  };
  return project ? withProject(own, project, text(given.path)) : own;
}

/** What the settings say where a file says nothing; a value that can't be read says nothing either. */
export function defaultsFrom({ instrument, hand }: Settings): Values {
  const player = instrument ? valueFrom('instrument', instrument, 'violin') : undefined;
  const known = player && 'value' in player ? player.value : undefined;
  const reach = hand ? valueFrom('hand', hand, known?.family ?? 'violin') : undefined;
  return {
    ...(known && { instrument: known }),
    ...(reach && 'value' in reach && { hand: reach.value }),
  };
}

/** What can't be read of the settings, each with why, for the user to put right. */
export function misreadSettings({ instrument, hand }: Settings, raw?: unknown): readonly string[] {
  const faults = isRecord(raw) && typeof raw.project === 'string' ? readProject(raw.project).faults : [];
  const player = instrument ? valueFrom('instrument', instrument, 'violin') : undefined;
  const family = player && 'value' in player ? player.value.family : 'violin';
  const reach = hand ? valueFrom('hand', hand, family) : undefined;
  return [
    ...faults.map((why) => t('Part of {file} is ignored: {why}.', { file: PROJECT_FILE, why })),
    ...(player && 'faults' in player ? [ignored('instrument', whyOf(player))] : []),
    ...(reach && 'faults' in reach ? [ignored('hand', whyOf(reach))] : []),
  ];
}

function ignored(name: string, why: string): string {
  return t('The setting {name} is ignored: {why}.', { name: `${SECTION}.${name}`, why });
}

function levels(raw: unknown): Levels {
  if (!isRecord(raw)) return {};
  return Object.fromEntries(
    Object.entries(raw).filter((entry): entry is [string, Level] => (LEVELS as readonly unknown[]).includes(entry[1])),
  );
}

function hintsShown(raw: unknown): Settings['fingeringHints'] {
  return raw === 'off' || raw === 'changes' || raw === 'all' ? raw : DEFAULT_SETTINGS.fingeringHints;
}

function text(raw: unknown): string {
  return typeof raw === 'string' ? raw.trim() : '';
}

function flag(raw: unknown, otherwise: boolean): boolean {
  return typeof raw === 'boolean' ? raw : otherwise;
}

function isRecord(raw: unknown): raw is Record<string, unknown> {
  return typeof raw === 'object' && raw !== null && !Array.isArray(raw);
}

import ignore from 'ignore';
import { nearest } from '../../grammar/nearest';
import { oneOf, quoted } from '../../grammar/problems';
import { whyOf } from '../../grammar/values/read-value';
import { t } from '../l10n/translate';
import { valueFrom } from '../passage/values';
import type { Settings } from '../protocol/settings';
import { CODES } from '../rules/check';
import { LEVELS, type Level, type Levels } from '../rules/levels';

/** What a project file says; what it does not say is left to the settings and the command line. */
export interface Project {
  readonly instrument?: string;
  readonly hand?: string;
  readonly safeChance?: number;
  readonly rules: Levels;
  /** Files that are not checked, in the patterns of a `.gitignore`, counted from the project file. */
  readonly exclude: readonly string[];
  /** Path of the baseline, counted from the project file. */
  readonly baseline?: string;
}

export interface ProjectReading {
  readonly project: Project;
  /** What does not count, each with why and what to do. */
  readonly faults: readonly string[];
}

const EMPTY: Project = { rules: {}, exclude: [] };

/** `fault` notes why a value does not count, and gives what is left of it. */
type Reader = (value: unknown, fault: (why: string) => Partial<Project>) => Partial<Project>;

/** The members of a project file, in the order of their documentation. */
const MEMBERS: Readonly<Record<string, Reader>> = {
  $schema: () => ({}),
  instrument: (value, fault) => {
    if (typeof value !== 'string') return fault(t('it is not text'));
    const read = valueFrom('instrument', value, 'violin');
    return 'faults' in read ? fault(whyOf(read)) : { instrument: value };
  },
  hand: (value, fault) => {
    if (typeof value !== 'string') return fault(t('it is not text'));
    // A cello is asked since its hands may have a thumb; whether an instrument has one is seen where a file is read.
    const read = valueFrom('hand', value, 'cello');
    return 'faults' in read ? fault(whyOf(read)) : { hand: value };
  },
  safeChance: (value, fault) =>
    typeof value === 'number' && value > 0 && value < 1
      ? { safeChance: value }
      : fault(t('it is not a number above 0 and below 1, such as 0.8')),
  rules: (value, fault) => {
    if (!isRecord(value))
      return fault(t('it is not a list of levels by code, such as {example}', { example: '{ "lone-third": "off" }' }));
    const entries = Object.entries(value).filter(([code, level]) => {
      const wrong = !CODES.includes(code)
        ? suggested(t('there is no check {code}', { code: quoted(code) }), nearest(code, CODES))
        : isLevel(level)
          ? undefined
          : t('{code} can be {levels}, and not {level}', { code, levels: oneOf(LEVELS), level: JSON.stringify(level) });
      if (wrong) fault(wrong);
      return !wrong;
    });
    return { rules: Object.fromEntries(entries) as Levels };
  },
  exclude: (value, fault) =>
    Array.isArray(value) && value.every((each) => typeof each === 'string')
      ? { exclude: value }
      : fault(t('it is not a list of patterns, such as ["drafts/"]')),
  baseline: (value, fault) =>
    typeof value === 'string' && value !== ''
      ? { baseline: value }
      : fault(t('it is not the path of a file, such as "baseline.json"')),
};

/** What a project file may say. */
export const PROJECT_MEMBERS: readonly string[] = Object.keys(MEMBERS);

/** Reads a project file. Any text gives a project: what can't be read is told and does not count. */
export function readProject(text: string): ProjectReading {
  let read: unknown;
  try {
    read = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return {
      project: EMPTY,
      faults: [t('it is not JSON ({reason})', { reason: error instanceof Error ? error.message : String(error) })],
    };
  }
  if (!isRecord(read))
    return { project: EMPTY, faults: [t('it is not a JSON object, as in {example}', { example: '{ "rules": {} }' })] };
  const faults: string[] = [];
  const parts = Object.entries(read).map(([name, value]) => {
    const reader = Object.hasOwn(MEMBERS, name) ? MEMBERS[name] : undefined;
    if (reader)
      return reader(value, (why) => {
        faults.push(`${name}: ${why}`);
        return {};
      });
    faults.push(suggested(t('there is no setting {name}', { name: quoted(name) }), nearest(name, PROJECT_MEMBERS)));
    return {};
  });
  return { project: Object.assign({ ...EMPTY }, ...parts), faults };
}

/** True for a file, as named from the project file's folder, that the project leaves out. */
export function leavesOut({ exclude }: Project, path: string): boolean {
  return (
    exclude.length > 0 &&
    ignore.isPathValid(path) &&
    ignore()
      .add([...exclude])
      .ignores(path)
  );
}

/**
 * Settings with what the project of a file says: it is agreed by all who share the files, so it comes first. `path` names the file
 * from the project file's folder; in one that the project leaves out nothing is checked.
 */
export function withProject(settings: Settings, project: Project, path = ''): Settings {
  const { instrument, hand, safeChance } = project;
  const rules = leavesOut(project, path) ? ALL_OFF : project.rules;
  return {
    ...settings,
    ...(instrument !== undefined && { instrument }),
    ...(hand !== undefined && { hand }),
    ...(safeChance !== undefined && { safeChance }),
    rules: { ...settings.rules, ...rules },
  };
}

const ALL_OFF: Levels = Object.fromEntries(CODES.map((code) => [code, 'off' as const]));

function suggested(fault: string, near: readonly string[]): string {
  return near.length > 0 ? t('{fault}; did you mean {near}?', { fault, near: oneOf(near) }) : fault;
}

function isLevel(value: unknown): value is Level {
  return (LEVELS as readonly unknown[]).includes(value);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

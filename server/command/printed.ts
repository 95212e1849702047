import type { Examined } from './examine';
import type { Finding } from './finding';
import { githubCommands } from './github';
import { reportedName } from './inputs';
import { jsonText } from './json-text';
import { junitXml } from './junit';
import { listing, tally } from './listing';
import { paintFor } from './paint';
import type { Report } from './report';
import { sarifLog } from './sarif';

/** What a check has found. */
export interface Findings {
  readonly examined: readonly Examined[];
  readonly all: readonly Finding[];
  /** What no baseline has. */
  readonly fresh: readonly Finding[];
  /** What a baseline has; undefined where there is none. */
  readonly recorded: ReadonlySet<Finding> | undefined;
  /** Errors are all that is shown. */
  readonly quiet: boolean;
}

/** How findings can be told; all but the first are open formats. */
export const FINDING_FORMATS = ['text', 'json', 'sarif', 'junit', 'github'] as const;
export type FindingFormat = (typeof FINDING_FORMATS)[number];

type Printer = (findings: Findings, stream: { readonly isTTY?: boolean }) => string;

const PRINTERS: Readonly<Record<FindingFormat, Printer>> = {
  text: textOf,
  json: (findings) => {
    const report: Report = { passages: [], diagnostics: shown(findings).map(({ diagnostic }) => diagnostic) };
    return jsonText(report);
  },
  sarif: ({ all, fresh, recorded, quiet }) =>
    jsonText(sarifLog(errorsOr(quiet, recorded ? all : fresh), recorded && ((finding) => recorded.has(finding)))),
  junit: (findings) => junitXml(findings.examined, shown(findings)),
  github: (findings) => githubCommands(shown(findings)),
};

/** Findings as a text in one of the formats. */
export function printed(
  findings: Findings,
  format: FindingFormat,
  stream: { readonly isTTY?: boolean } = process.stdout,
): string {
  return PRINTERS[format](findings, stream);
}

function textOf(findings: Findings, stream: { readonly isTTY?: boolean }): string {
  const { examined, all, fresh, quiet } = findings;
  const diagnostics = shown(findings).map(({ diagnostic }) => diagnostic);
  const texts = new Map(examined.map(({ name, as, text }) => [reportedName(as ?? name), text]));
  const parts: string[] = [];
  if (diagnostics.length > 0) parts.push(listing(diagnostics, (file) => texts.get(file) ?? '', paintFor(stream)));
  const applied = examined.reduce((sum, each) => sum + each.applied, 0);
  if (applied > 0) parts.push(`${applied} ${applied === 1 ? 'fix' : 'fixes'} applied.`);
  const left = all.length - fresh.length;
  const counted = examined.filter(({ refused }) => refused === undefined).length;
  const hidden = quiet ? fresh.length - diagnostics.length : 0;
  parts.push(
    [
      tally(diagnostics, counted),
      left > 0 ? ` ${left} more in the baseline.` : '',
      hidden > 0 ? ` ${hidden} below an error not shown.` : '',
    ].join(''),
  );
  return parts.join('\n');
}

function shown({ fresh, quiet }: Findings): readonly Finding[] {
  return errorsOr(quiet, fresh);
}

function errorsOr(quiet: boolean, findings: readonly Finding[]): readonly Finding[] {
  return quiet ? findings.filter(({ diagnostic }) => diagnostic.severity === 'error') : findings;
}

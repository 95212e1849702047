import type { Fix, Location, Log, Region, ReportingDescriptor, Result } from 'sarif';
import { version } from '../../package.json';
import type { Finding } from './finding';
import type { Severity } from './listing';
import type { Place } from './report';
import { rulePage } from './rule-page';

/** SARIF has no level below `note`. */
const LEVEL: Readonly<Record<Severity, Result.level>> = { error: 'error', warning: 'warning', information: 'note', hint: 'note' };

/** Findings as SARIF 2.1.0 (OASIS standard), for code review and dashboards. With a baseline, each says whether it is new. */
export function sarifLog(findings: readonly Finding[], recorded?: (finding: Finding) => boolean): Log {
  const codes = [...new Set(findings.map(({ diagnostic }) => diagnostic.code))].sort();
  return {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Passagework', version, rules: codes.map(ruleOf) } },
        columnKind: 'utf16CodeUnits',
        results: findings.map((finding) => ({
          ...resultOf(finding, codes),
          ...(recorded && { baselineState: recorded(finding) ? 'unchanged' : 'new' }),
        })),
      },
    ],
  };
}

/** With the rule's page: its title, and the whole of it as help. */
function ruleOf(code: string): ReportingDescriptor {
  const page = rulePage(code);
  const title = page?.match(/^# (.+)$/m)?.[1] ?? code.replaceAll('-', ' ');
  return { id: code, shortDescription: { text: `${title}.` }, ...(page && { help: { text: page, markdown: page } }) };
}

function resultOf({ diagnostic, fingerprint, fixes }: Finding, codes: readonly string[]): Result {
  const { file, code, severity, message, related } = diagnostic;
  return {
    ruleId: code,
    ruleIndex: codes.indexOf(code),
    level: LEVEL[severity],
    message: { text: message },
    locations: [locationOf(diagnostic, file)],
    partialFingerprints: { 'passagework/v1': fingerprint },
    ...(related && {
      relatedLocations: related.map((place, id) => ({ ...locationOf(place, file), id, message: { text: place.message } })),
    }),
    ...(fixes.length > 0 && { fixes: fixes.map((fix) => fixOf(fix, file)) }),
  };
}

function locationOf(place: Place, file: string | undefined): Location {
  return { physicalLocation: { artifactLocation: { uri: uriOf(file) }, region: regionOf(place) } };
}

function fixOf({ title, edits }: Finding['fixes'][number], file: string | undefined): Fix {
  return {
    description: { text: title },
    artifactChanges: [
      {
        artifactLocation: { uri: uriOf(file) },
        replacements: edits.map((edit) => ({ deletedRegion: regionOf(edit), insertedContent: { text: edit.text } })),
      },
    ],
  };
}

function regionOf({ line, column, endLine, endColumn }: Place): Region {
  return { startLine: line, startColumn: column, endLine, endColumn };
}

/** A relative reference as RFC 3986 wants it; standard input has no place, so it gets a name that can't be a file's. */
function uriOf(file: string | undefined): string {
  if (file === undefined) return 'stdin:passage';
  const path = encodeURI(file).replaceAll('#', '%23').replaceAll('?', '%3F');
  return /^[A-Za-z]:/.test(path) ? `file:///${path}` : path.startsWith('/') ? `file://${path}` : path;
}

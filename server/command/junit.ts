import { escaped } from '../scene/svg';
import type { Examined } from './examine';
import type { Finding } from './finding';
import { inputName, reportedName } from './inputs';
import { visible } from './visible';

/**
 * Findings in the XML that test runners write and CI jobs read (JUnit's; it has no published standard): a suite for every file,
 * a failed case for every finding, a passed one for a file without any.
 */
export function junitXml(examined: readonly Examined[], findings: readonly Finding[]): string {
  const byFile = new Map<string | undefined, Finding[]>();
  for (const finding of findings) {
    const { file } = finding.diagnostic;
    byFile.set(file, [...(byFile.get(file) ?? []), finding]);
  }
  const suites = examined.map(({ name, as, refused }) =>
    suite(inputName(as ?? name), byFile.get(reportedName(as ?? name)) ?? [], refused),
  );
  const failures = findings.length;
  const errors = examined.filter(({ refused }) => refused !== undefined).length;
  const tests = suites.reduce((sum, { cases }) => sum + cases, 0);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="passagework" tests="${tests}" failures="${failures}" errors="${errors}">`,
    ...suites.map(({ xml }) => xml),
    '</testsuites>',
  ].join('\n');
}

function suite(
  file: string,
  findings: readonly Finding[],
  refused: string | undefined,
): { readonly xml: string; readonly cases: number } {
  const name = attribute(file);
  const cases = findings.map(({ diagnostic: { severity, code, message, line, column } }) => {
    const place = attribute(`${code} at ${line}:${column}`);
    return `    <testcase classname=${name} name=${place}><failure type=${attribute(severity)} message=${attribute(message)}/></testcase>`;
  });
  if (refused !== undefined)
    cases.push(`    <testcase classname=${name} name="can be read"><error message=${attribute(refused)}/></testcase>`);
  if (cases.length === 0) cases.push(`    <testcase classname=${name} name="nothing to report"/>`);
  const errors = refused === undefined ? 0 : 1;
  const head = `  <testsuite name=${name} tests="${cases.length}" failures="${findings.length}" errors="${errors}">`;
  return { xml: [head, ...cases, '  </testsuite>'].join('\n'), cases: cases.length };
}

function attribute(text: string): string {
  // A text of XML may hold no controls (XML 1.0, 2.2).
  return `"${escaped(
    visible(text)
      .replaceAll('\t', ' ')
      .replace(/\p{Surrogate}|[\ufffe\uffff]/gu, '\ufffd'),
  )}"`;
}

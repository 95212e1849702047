import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Folder of the rules and their pages. */
export const RULES_FOLDER = fileURLToPath(new URL('../../server/rules/', import.meta.url));

/** An example of a page: a fenced block whose info string begins with `passage`. */
export interface Example {
  readonly kind: 'reports' | 'quiet' | 'becomes';
  readonly text: string;
  /** Line of the page that the fence stands on, from 1. */
  readonly line: number;
}

export interface Page {
  readonly code: string;
  readonly title: string;
  /** The level that the page says the problem has. */
  readonly severity: string;
  /** Second-level headings in order. */
  readonly headings: readonly string[];
  readonly examples: readonly Example[];
  readonly text: string;
}

/** Codes of the pages that there are. */
export function pageCodes(): readonly string[] {
  return readdirSync(RULES_FOLDER).flatMap((name) => (name.endsWith('.md') ? [name.slice(0, -3)] : []));
}

/** Reads the page of a code; the convention is told in pages.test.ts. */
export function readPage(code: string): Page {
  const text = readFileSync(`${RULES_FOLDER}${code}.md`, 'utf8');
  const lines = text.split('\n');
  const [, said, severity = ''] = /^`([a-z-]+)` · (error|warning|information|hint)$/.exec(lines[2] ?? '') ?? [];
  if (said !== code) throw new Error(`${code}.md: the third line must read \`${code}\` · level, it is “${lines[2]}”.`);
  return {
    code,
    title: lines[0]?.replace(/^# /, '') ?? '',
    severity,
    headings: lines.flatMap((line) => (line.startsWith('## ') ? [line.slice(3)] : [])),
    examples: examples(code, lines),
    text,
  };
}

function examples(code: string, lines: readonly string[]): readonly Example[] {
  const found: Example[] = [];
  for (let at = 0; at < lines.length; at++) {
    const info = /^```(.*)$/.exec(lines[at] ?? '')?.[1]?.trim();
    if (info === undefined) continue;
    const end = lines.indexOf('```', at + 1);
    if (end < 0) throw new Error(`${code}.md:${at + 1}: this fence is never closed.`);
    const text = `${lines.slice(at + 1, end).join('\n')}\n`;
    const [, kind, times] = /^passage (reports|quiet|becomes)(?: (\d+) times)?$/.exec(info) ?? [];
    if (!kind)
      throw new Error(`${code}.md:${at + 1}: an example is \`passage reports\`, \`passage becomes\` or \`passage quiet\`.`);
    found.push({
      kind: kind as Example['kind'],
      text: times ? Array(Number(times)).fill(text.trim()).join(' ') : text,
      line: at + 1,
    });
    at = end;
  }
  return found;
}

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { nearest } from '../../grammar/nearest';
import { CannotRun, EXIT } from './cannot-run';

/** The rules' pages ship in their own folder, beside the one of the command. */
const PAGES = new URL('../server/rules/', import.meta.url);

/** What a finding means and how to fix it, as Markdown; undefined for a code without a page. */
export function rulePage(code: string): string | undefined {
  const page = new URL(`${encodeURIComponent(code)}.md`, PAGES);
  return existsSync(page) ? readFileSync(page, 'utf8') : undefined;
}

/** `passagework explain CODE`. */
export function runExplain(code: string): number {
  const page = rulePage(code);
  if (page === undefined) {
    const codes = readdirSync(PAGES).flatMap((file) => (file.endsWith('.md') ? [file.slice(0, -3)] : []));
    const [meant] = nearest(code, codes);
    throw new CannotRun(
      `There is no page for ${code}. ${meant ? `Did you mean ${meant}?` : `Pages: ${codes.sort().join(', ')}.`}`,
    );
  }
  console.log(page.trimEnd());
  return EXIT.clean;
}

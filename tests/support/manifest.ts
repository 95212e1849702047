import written from '../../package.json';
import words from '../../package.nls.json';

const WORDS: Readonly<Record<string, string>> = words;

/** The extension's manifest as VS Code shows it to who reads English: each `%key%` replaced by its words. */
export const manifest: typeof written = JSON.parse(JSON.stringify(written), (_, value: unknown) =>
  typeof value === 'string' && /^%.+%$/.test(value) ? (WORDS[value.slice(1, -1)] ?? value) : value,
);

/** What a terminal obeys instead of showing: C0 and C1 controls, and what turns the direction of writing (Unicode UAX #9). */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
const OBEYED = /[\0-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;

/**
 * A piece of somebody's text as it may be shown: signs that a terminal would obey stand as pictures, one for one, so columns
 * keep their places. Tabs stay.
 */
export function visible(text: string): string {
  return text.replace(OBEYED, pictured);
}

/** The same for a text of several lines. */
export function visibleLines(text: string): string {
  return text.replace(OBEYED, (sign) => (sign === '\n' ? sign : pictured(sign)));
}

/** Every text in a value, and in all that it holds. */
export function visibleWithin<T>(value: T): T {
  if (typeof value === 'string') return visible(value) as T;
  if (Array.isArray(value)) return value.map(visibleWithin) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, member]) => [name, visibleWithin(member)])) as T;
}

/** Unicode has pictures of the controls of ASCII (U+2400); for all else stands the sign of a character that can't be shown. */
function pictured(sign: string): string {
  const code = sign.charCodeAt(0);
  if (sign === '\t') return sign;
  if (code < 0x20) return String.fromCharCode(0x2400 + code);
  return code === 0x7f ? '\u2421' : '\ufffd';
}

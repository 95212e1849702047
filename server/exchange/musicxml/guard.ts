import { later, t } from '../../l10n/translate';
import { Unreadable } from '../unreadable';
import { LIMITS } from './limits';

/**
 * Looks over an XML text before it is read, and refuses what asks too much: tags, elements and depth beyond the limits, and every
 * declaration of entities. Whether it is well-formed otherwise, the parser tells.
 *
 * @throws Unreadable with the line
 */
export function guard(text: string): void {
  refuseControls(text);
  let elements = 0;
  let depth = 0;
  for (let at = text.indexOf('<'); at >= 0; ) {
    const kind = text[at + 1];
    let end: number;
    if (kind === '!') end = endOfMarkup(text, at);
    else if (kind === '?') end = text.indexOf('?>', at);
    else {
      end = endOfTag(text, at);
      if (end - at > LIMITS.tag) throw new Unreadable(t(LONG_TAG, { most: LIMITS.tag.toLocaleString('en') }), lineAt(text, at));
      if (kind === '/') depth--;
      else if (++elements > LIMITS.elements)
        throw new Unreadable(t(MANY_ELEMENTS, { most: LIMITS.elements.toLocaleString('en') }));
      else if (text[end - 1] !== '/' && ++depth > LIMITS.depth)
        throw new Unreadable(t(DEEP, { most: LIMITS.depth }), lineAt(text, at));
    }
    // Without an end: the parser comes no further either.
    at = end < 0 ? -1 : text.indexOf('<', end);
  }
}

const LONG_TAG = later('There is a tag of more than {most} characters here, which no score has, so the file is not read.');
const MANY_ELEMENTS = later('The score has more than {most} elements, too many to read at once. Export only the part you need.');
const DEEP = later('Elements are nested more than {most} deep, which no score does, so the file is not read.');

/** Where a tag closes, at a `>` outside of quotes; -1 where it never does. */
function endOfTag(text: string, at: number): number {
  for (let i = at + 1; i < text.length; i++) {
    const sign = text[i];
    if (sign === '>') return i;
    if (sign !== '"' && sign !== "'") continue;
    i = text.indexOf(sign, i + 1);
    if (i < 0) return -1;
  }
  return -1;
}

/** Where a comment, a stretch of plain text or a document type closes; -1 where it never does. */
function endOfMarkup(text: string, at: number): number {
  if (text.startsWith('<!--', at)) return text.indexOf('-->', at + 4);
  if (text.startsWith('<![CDATA[', at)) return text.indexOf(']]>', at);
  const end = text.indexOf('>', at);
  if (!text.startsWith('<!DOCTYPE', at)) {
    throw new Unreadable(t('Entities are declared here, which no score needs, so the file is not read.'), lineAt(text, at));
  }
  if (end < 0 || /[[<]/.test(text.slice(at + 1, end))) {
    throw new Unreadable(
      t(
        'The document type declaration defines entities or is broken. Scores need none, and such files can be made to overload a reader, so it is not read. Remove the part in square brackets.',
      ),
      lineAt(text, at),
    );
  }
  return end;
}

function refuseControls(text: string): void {
  // XML 1.0, production 2 (Char): what no document may hold.
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are the ones looked for
  const control = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/.exec(text);
  if (!control) return;
  throw new Unreadable(
    t('There is a control character here that XML does not allow; the file is damaged or not XML.'),
    lineAt(text, control.index),
  );
}

function lineAt(text: string, at: number): number {
  let line = 1;
  for (let i = text.indexOf('\n'); i >= 0 && i < at; i = text.indexOf('\n', i + 1)) line++;
  return line;
}

import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { Unreadable } from '../unreadable';
import { LIMITS } from './limits';

/** One element of an XML document; comments and processing instructions are left out. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  /** Its own character data, trimmed; CDATA included. */
  readonly text: string;
}

const TEXT = '#text';
const CDATA = '#cdata';
const ATTRIBUTES = ':@';
const NONE: Readonly<Record<string, string>> = Object.freeze({});
const NO_CHILDREN: readonly Element[] = Object.freeze([]);

type Parsed = Readonly<Record<string, unknown>>;

/**
 * The root element of an XML text. Entities are never expanded except the five of XML itself and
 * character references, no declaration of entities is accepted, and nothing is fetched.
 *
 * @throws Unreadable with line and column where the text is not well-formed or asks too much.
 */
export function parseXml(text: string): Element {
  const body = withoutDoctype(text);
  guard(body);
  const fault = XMLValidator.validate(body);
  if (fault !== true) {
    throw new Unreadable(`This is not well-formed XML: ${fault.err.msg} Export the score again.`, fault.err.line, fault.err.col);
  }
  const roots = parse(body).filter((node) => nameOf(node) !== TEXT);
  const root = roots[0];
  if (roots.length !== 1 || !root) throw new Unreadable('An XML file has exactly one outermost element; this one has not.');
  return convert(root);
}

/** The value of an attribute, entities resolved; undefined where there is none. */
export function attribute(element: Element, name: string): string | undefined {
  return Object.hasOwn(element.attributes, name) ? element.attributes[name] : undefined;
}

export function child(element: Element | undefined, name: string): Element | undefined {
  return element?.children.find((c) => c.name === name);
}

export function children(element: Element | undefined, name: string): readonly Element[] {
  return element?.children.filter((c) => c.name === name) ?? [];
}

/** The text of the first child of that name; undefined where there is none or it is empty. */
export function textOf(element: Element | undefined, name: string): string | undefined {
  return child(element, name)?.text || undefined;
}

/** The number in the first child of that name; undefined where there is none or it is no number. */
export function numberOf(element: Element | undefined, name: string): number | undefined {
  const text = textOf(element, name);
  const value = text === undefined ? Number.NaN : Number(text);
  return Number.isFinite(value) ? value : undefined;
}

/** Cuts a document type declaration out of the prolog, line breaks kept, and refuses one that declares anything. */
function withoutDoctype(text: string): string {
  let at = 0;
  for (;;) {
    const skipped = /^(?:\s+|<\?[\s\S]*?\?>|<!--[\s\S]*?-->)/.exec(text.slice(at, at + 65536));
    if (!skipped) break;
    at += skipped[0].length;
  }
  if (!/^<!DOCTYPE/i.test(text.slice(at, at + 9))) return text;
  const declaration = /^<!DOCTYPE(?:[^[\]<>"']|"[^"]*"|'[^']*')*>/i.exec(text.slice(at, at + 4096))?.[0];
  if (declaration === undefined) {
    throw new Unreadable(
      'The document type declaration defines entities or is broken. Scores need none, and such files can be made to overload a reader, so it is not read. Remove the part in square brackets.',
      lineAt(text, at),
    );
  }
  return text.slice(0, at) + declaration.replace(/[^\n]/g, ' ') + text.slice(at + declaration.length);
}

function guard(text: string): void {
  // XML 1.0, production 2 (Char): what no document may hold.
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are the ones looked for
  const control = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/.exec(text);
  if (control) {
    throw new Unreadable(
      'There is a control character here that XML does not allow; the file is damaged or no XML.',
      lineAt(text, control.index),
    );
  }
  const declared = /<!(?:DOCTYPE|ENTITY)/i.exec(text);
  if (declared)
    throw new Unreadable(
      'Entities are declared here, which no score needs, so the file is not read.',
      lineAt(text, declared.index),
    );
  let elements = 0;
  for (let at = text.indexOf('<'); at >= 0; at = text.indexOf('<', at + 1)) {
    // Comments and stretches of plain text may be as long as they like.
    if (text[at + 1] !== '!' && text.indexOf('>', at) - at > LIMITS.tag) {
      const why = `There is a tag of more than ${LIMITS.tag.toLocaleString('en')} characters here, which no score has, so the file is not read.`;
      throw new Unreadable(why, lineAt(text, at));
    }
    if (text.charCodeAt(at + 1) !== 47 && ++elements > LIMITS.elements) {
      throw new Unreadable(
        `The score has more than ${LIMITS.elements.toLocaleString('en')} elements, too many to read at once. Export only the part you need.`,
      );
    }
  }
}

function parse(text: string): readonly Parsed[] {
  const parser = new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: '',
    textNodeName: TEXT,
    cdataPropName: CDATA,
    processEntities: false,
    htmlEntities: false,
    parseTagValue: false,
    parseAttributeValue: false,
    trimValues: true,
    ignoreDeclaration: true,
    ignorePiTags: true,
    maxNestedTags: LIMITS.depth,
  });
  try {
    return parser.parse(text) as readonly Parsed[];
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Unreadable(
      /nested/i.test(why)
        ? `Elements are nested more than ${LIMITS.depth} deep, which no score does, so the file is not read.`
        : `This XML can't be read (${why}). Export the score again.`,
    );
  }
}

function nameOf(node: Parsed): string {
  for (const key in node) if (key !== ATTRIBUTES) return key;
  return TEXT;
}

function convert(node: Parsed): Element {
  const name = nameOf(node);
  const elements: Element[] = [];
  let text = '';
  for (const inner of node[name] as readonly Parsed[]) {
    const kind = nameOf(inner);
    if (kind === TEXT) text += resolved(String(inner[TEXT]));
    else if (kind === CDATA) text += (inner[CDATA] as readonly Parsed[]).map((t) => String(t[TEXT])).join('');
    else elements.push(convert(inner));
  }
  const given = node[ATTRIBUTES] as Readonly<Record<string, string>> | undefined;
  const attributes = given
    ? Object.fromEntries(Object.entries(given).map(([key, value]) => [key, resolved(String(value))]))
    : NONE;
  return { name, attributes, children: elements.length > 0 ? elements : NO_CHILDREN, text: text.trim() };
}

const NAMED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function resolved(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(#x[0-9a-f]{1,6}|#[0-9]{1,7}|[^;&<\s]{1,64});/gi, (whole, name: string) => {
    if (name.startsWith('#')) {
      const code = /^#x/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number.parseInt(name.slice(1), 10);
      return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '\uFFFD';
    }
    const character = Object.hasOwn(NAMED, name) ? NAMED[name] : undefined;
    if (character !== undefined) return character;
    throw new Unreadable(
      `The entity ${whole} is not one of XML's own five, and others are not read. Replace it by the character it stands for.`,
    );
  });
}

function lineAt(text: string, at: number): number {
  let line = 1;
  for (let i = text.indexOf('\n'); i >= 0 && i < at; i = text.indexOf('\n', i + 1)) line++;
  return line;
}

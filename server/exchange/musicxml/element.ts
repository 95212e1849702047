import { parseXml as parse, XmlElement, XmlError, type XmlNode, XmlText } from '@rgrove/parse-xml';
import { t } from '../../l10n/translate';
import { Unreadable } from '../unreadable';
import { guard } from './guard';

/** One element of an XML document; comments and processing instructions are left out. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  /** Its own character data, trimmed; CDATA included. */
  readonly text: string;
}

/**
 * The root element of an XML text. Entities are never expanded except the five of XML itself and
 * character references, no declaration of entities is accepted, and nothing is fetched.
 *
 * @throws Unreadable with line and column where the text is not well-formed or asks too much.
 */
export function parseXml(text: string): Element {
  guard(text);
  try {
    return convert(parse(text, { resolveUndefinedEntity: refuse }).root as XmlElement);
  } catch (error) {
    if (!(error instanceof XmlError)) throw error;
    // Its message ends with the place and the line once more.
    const why = error.message.replace(/ \(line \d+, column \d+\)\n[\s\S]*$/, '');
    throw new Unreadable(t('This is not well-formed XML: {why}. Export the score again.', { why }), error.line, error.column);
  }
}

function refuse(entity: string): never {
  throw new Unreadable(
    t("The entity {entity} is not one of XML's own five, and others are not read. Replace it by the character it stands for.", {
      entity,
    }),
  );
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

const NO_CHILDREN: readonly Element[] = Object.freeze([]);

function convert({ name, attributes, children: inner }: XmlElement): Element {
  const elements: Element[] = [];
  let text = '';
  for (const node of inner as readonly XmlNode[]) {
    if (node instanceof XmlText) text += node.text;
    else if (node instanceof XmlElement) elements.push(convert(node));
  }
  return { name, attributes, children: elements.length > 0 ? elements : NO_CHILDREN, text: text.trim() };
}

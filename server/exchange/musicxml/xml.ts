/** An element to be written. */
export interface Xml {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** Elements, or one text. */
  readonly content: readonly Xml[] | string;
}

/** An element with its children; those that are `undefined` are left out. */
export function xmlElement(
  name: string,
  attributes: Readonly<Record<string, string>>,
  ...content: readonly (Xml | undefined)[]
): Xml {
  return { name, attributes, content: content.filter((c) => c !== undefined) };
}

/** An element that holds text and nothing else. */
export function text(name: string, value: string | number | bigint, attributes: Readonly<Record<string, string>> = {}): Xml {
  return { name, attributes, content: String(value) };
}

/** The element as XML text, indented, with a line break after it. Deep recursion can't happen: what is written here is flat. */
export function printXml({ name, attributes, content }: Xml, indent = ''): string {
  const open = `${name}${Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escaped(value)}"`)
    .join('')}`;
  if (content.length === 0) return `${indent}<${open}/>\n`;
  if (typeof content === 'string') return `${indent}<${open}>${escaped(content)}</${name}>\n`;
  return `${indent}<${open}>\n${content.map((c) => printXml(c, `${indent}  `)).join('')}${indent}</${name}>\n`;
}

function escaped(value: string): string {
  return (
    value
      // XML 1.0, production 2 (Char): these can't be in a document, not even as references.
      // biome-ignore lint/suspicious/noControlCharactersInRegex: those are the ones replaced
      .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|\p{Surrogate}/gu, '\uFFFD')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
      .replace(/"/g, '&quot;')
  );
}

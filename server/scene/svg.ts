/** Text that may stand inside markup or between double quotes. */
export function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

type Value = string | number | undefined;

/** A number with at most three decimals and no trailing zeros, the same on every platform: drawings are compared byte by byte. */
export function num(value: number): string {
  const text = value.toFixed(3).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}

/** One element. Attributes left `undefined` are not written; `inside` is markup, already escaped. */
export function tag(name: string, attributes: Readonly<Record<string, Value>>, inside?: string): string {
  const written = Object.entries(attributes)
    .filter((entry): entry is [string, string | number] => entry[1] !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? num(value) : escaped(value)}"`)
    .join('');
  return inside === undefined ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

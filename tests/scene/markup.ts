/** Opening tags of one kind that have an attribute (with that value, where one is given). */
export function elements(svg: string, name: string, key: string, value?: string): readonly string[] {
  return (svg.match(new RegExp(`<${name}\\b[^>]*>`, 'g')) ?? []).filter((each) =>
    value === undefined ? each.includes(` ${key}="`) : each.includes(` ${key}="${value}"`),
  );
}

/** The value of an attribute in an opening tag, empty where there is none. */
export function attribute(tag: string, key: string): string {
  return new RegExp(` ${key}="([^"]*)"`).exec(tag)?.[1] ?? '';
}

/** The points of a path, handles included. */
export function xy(d: string): readonly { readonly x: number; readonly y: number }[] {
  const numbers = (d.match(/-?[\d.]+/g) ?? []).map(Number);
  return Array.from({ length: numbers.length / 2 }, (_, index) => ({
    x: numbers[2 * index] as number,
    y: numbers[2 * index + 1] as number,
  }));
}

/** As JSON that a terminal shows as it stands: the controls that JSON lets pass are escaped too. */
export function jsonText(value: unknown): string {
  return [...jsonPieces(value)].join('');
}

/** Values nested deeper than this are written on one line: an event of a passage is, and all that it holds. */
const DEEPEST = 4;

/**
 * The same text in pieces, for values whose text is longer than a string can be. Of an object's members any iterable counts as an
 * array, and its items are asked for one by one.
 */
export function* jsonPieces(value: unknown, depth = 0): Generator<string> {
  if (depth === DEEPEST || typeof value !== 'object' || value === null) {
    yield escaped(JSON.stringify(value));
    return;
  }
  const listed = Symbol.iterator in value;
  const members = listed ? (value as Iterable<unknown>) : Object.entries(value).filter(([, member]) => member !== undefined);
  const [open, close] = listed ? '[]' : '{}';
  let any = false;
  for (const member of members) {
    yield `${any ? ',' : open}\n${'  '.repeat(depth + 1)}`;
    any = true;
    if (listed) yield* jsonPieces(member, depth + 1);
    else {
      const [name, inside] = member as [string, unknown];
      yield `${escaped(JSON.stringify(name))}: `;
      yield* jsonPieces(inside, depth + 1);
    }
  }
  yield any ? `\n${'  '.repeat(depth)}${close}` : `${open}${close}`;
}

function escaped(json: string): string {
  const written = (sign: string) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
  return json.replace(/[\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g, written);
}

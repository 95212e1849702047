import { ErrorCodes, ResponseError } from 'vscode-jsonrpc';
import {
  ALTERNATIVES_REQUEST,
  ATTEMPTS_REQUEST,
  EDIT_PLAYER_REQUEST,
  type EditPlayerParams,
  EXERCISES_REQUEST,
  EXPORT_REQUEST,
  IMPORT_REQUEST,
  LISTEN_REQUEST,
  MEASURE_REQUEST,
  PIN_REQUEST,
  PLAYER_CHANGED_NOTIFICATION,
  SCENE_REQUEST,
} from '../protocol/messages';

/** What a parameter must be: a simple kind, one of some words, a list of one kind, or an object's members, of which those ending in `?` may be missing. */
type Shape = keyof typeof KINDS | ReadonlySet<string> | readonly [Shape] | { readonly [member: string]: Shape };

/** The protocol counts lines, characters and versions in 31 bits (Language Server Protocol 3.17, `uinteger`). */
const MOST = 2 ** 31 - 1;

const KINDS = {
  text: [(value: unknown) => typeof value === 'string', 'a text'],
  flag: [(value: unknown) => typeof value === 'boolean', 'true or false'],
  number: [(value: unknown) => typeof value === 'number', 'a number'],
  version: [(value: unknown) => Number.isInteger(value), 'a whole number'],
  count: [(value: unknown) => Number.isInteger(value) && Number(value) >= 0 && Number(value) <= MOST, 'a whole number from 0 up'],
} as const;

const POSITION: Shape = { line: 'count', character: 'count' };
const RANGE: Shape = { start: POSITION, end: POSITION };
const DOCUMENT: Shape = { textDocument: { uri: 'text' } };
const AT: Shape = { ...DOCUMENT, position: POSITION };
const IN: Shape = { ...DOCUMENT, range: RANGE };
const SPOT: Shape = { uri: 'text', version: 'version', passage: 'count', event: 'count' };
const SETTLED: Shape = { uri: 'text', text: 'text', line: 'count', instrument: 'text', hand: 'text', 'project?': 'text' };

/** What a message must bring of all that we read of it. */
const PARAMS: Readonly<Record<string, Shape>> = {
  initialize: { capabilities: {}, 'initializationOptions?': {} },
  'textDocument/didOpen': { textDocument: { uri: 'text', languageId: 'text', version: 'version', text: 'text' } },
  'textDocument/didChange': {
    textDocument: { uri: 'text', version: 'version' },
    contentChanges: [{ text: 'text', 'range?': RANGE }],
  },
  'textDocument/didClose': DOCUMENT,
  'textDocument/hover': AT,
  'textDocument/codeAction': { ...IN, context: { 'only?': ['text'] } },
  'textDocument/inlayHint': IN,
  'textDocument/codeLens': DOCUMENT,
  'textDocument/completion': AT,
  'textDocument/signatureHelp': AT,
  'textDocument/semanticTokens/full': DOCUMENT,
  'textDocument/semanticTokens/full/delta': { ...DOCUMENT, previousResultId: 'text' },
  'textDocument/semanticTokens/range': IN,
  'textDocument/documentSymbol': DOCUMENT,
  'textDocument/foldingRange': DOCUMENT,
  'textDocument/selectionRange': { ...DOCUMENT, positions: [POSITION] },
  'textDocument/documentHighlight': AT,
  'textDocument/documentLink': DOCUMENT,
  'textDocument/formatting': DOCUMENT,
  'textDocument/rangeFormatting': IN,
  'textDocument/definition': AT,
  'textDocument/references': { ...AT, context: { includeDeclaration: 'flag' } },
  'textDocument/prepareRename': AT,
  'textDocument/rename': { ...AT, newName: 'text' },
  'textDocument/diagnostic': { ...DOCUMENT, 'previousResultId?': 'text' },
  [SCENE_REQUEST]: { uri: 'text' },
  [ALTERNATIVES_REQUEST]: SPOT,
  [ATTEMPTS_REQUEST]: { uri: 'text', position: POSITION },
  [PIN_REQUEST]: { ...SPOT, alternative: 'count' },
  [PLAYER_CHANGED_NOTIFICATION]: { uri: 'text', file: 'text' },
  [MEASURE_REQUEST]: { text: 'text' },
  [EDIT_PLAYER_REQUEST]: { text: 'text', change: { kind: new Set(['attempt', 'value', 'recording']) } },
  [EXPORT_REQUEST]: {
    ...SETTLED,
    format: new Set(['musicxml', 'midi', 'wav', 'html', 'pdf']),
    paper: new Set(['A4', 'Letter']),
    marking: new Set(['changes', 'all']),
  },
  [EXERCISES_REQUEST]: { ...SETTLED, 'file?': 'text', 'kinds?': ['text'], safeChance: 'number' },
  [LISTEN_REQUEST]: SETTLED,
  [IMPORT_REQUEST]: { base64: 'text', 'part?': 'text', 'tune?': 'text', 'divisi?': 'text' },
};

/** What the change of a player file must bring besides, by its kind. */
const CHANGES: Readonly<Record<string, Shape>> = {
  attempt: { change: { attempt: 'text', clean: 'flag' } },
  value: { change: { key: 'text', value: 'text' } },
  recording: {
    change: { fingerprint: 'text', counts: [{ attempt: 'text', clean: 'count', tried: 'count' }], back: 'flag' },
  },
};

/** The methods whose parameters are looked at. */
export const CHECKED_METHODS: readonly string[] = Object.keys(PARAMS);

/**
 * Looks at what a message brings before anything is done with it.
 *
 * @throws ResponseError, telling which parameter is missing or of the wrong kind
 */
export function checkParams(method: string, params: unknown): void {
  const shape = Object.hasOwn(PARAMS, method) ? PARAMS[method] : undefined;
  let fault = shape && faultIn(params, shape, '');
  if (method === EDIT_PLAYER_REQUEST) fault ??= faultIn(params, CHANGES[(params as EditPlayerParams).change.kind]!, '');
  if (fault) throw new ResponseError(ErrorCodes.InvalidParams, `${method}: ${fault}`);
}

/** `position.line must be a whole number from 0 up`; undefined where all is as it must be. */
function faultIn(value: unknown, shape: Shape, name: string): string | undefined {
  const called = name || 'what it brings';
  if (typeof shape === 'string') {
    const [is, words] = KINDS[shape];
    return is(value) ? undefined : `${called} must be ${words}`;
  }
  if (shape instanceof Set) return shape.has(value) ? undefined : `${called} must be one of ${[...shape].join(', ')}`;
  if (isList(shape)) {
    if (!Array.isArray(value)) return `${called} must be a list`;
    return first(value, (one, index) => faultIn(one, shape[0], `${name}[${index}]`));
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return `${called} must be an object`;
  return first(Object.entries(shape), ([key, wanted]) => {
    const member = key.replace('?', '');
    const given = Object.hasOwn(value, member) ? (value as Record<string, unknown>)[member] : undefined;
    // Some clients write null for what they have nothing to say about.
    if (key.endsWith('?') && (given === undefined || given === null)) return undefined;
    return faultIn(given, wanted, name ? `${name}.${member}` : member);
  });
}

function isList(shape: Shape): shape is readonly [Shape] {
  return Array.isArray(shape);
}

function first<T>(all: readonly T[], fault: (one: T, index: number) => string | undefined): string | undefined {
  for (const [index, one] of all.entries()) {
    const found = fault(one, index);
    if (found) return found;
  }
  return undefined;
}

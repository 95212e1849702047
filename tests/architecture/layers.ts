/** The layers (DEVELOPERS.md tells why each stands where it does). Change a layer only together with its reason there. */

/** Rooms in the order of their imports: a room sees the rooms on the lines before its own, never one beside or after it. */
export const ORDER: readonly (readonly string[])[] = [
  ['server/l10n'],
  ['grammar'],
  ['server/music'],
  ['server/instrument'],
  ['server/hand'],
  ['server/player'],
  ['server/passage'],
  ['server/solver'],
  ['server/scene'],
  ['server/rules'],
  ['server/features', 'server/exchange', 'server/practice', 'server/listening'],
  ['server/workspace'],
  ['server/lsp', 'server/command'],
];

/** What stands outside the order, with all that it may see. */
export const APART: Readonly<Record<string, readonly string[]>> = {
  'server/protocol': [],
  // What draws, sounds and words the preview, the status bar, the page and the sheet is one, so they can't come to differ.
  client: ['server/l10n', 'server/protocol', 'server/scene', 'client/webview'],
  'client/webview': ['server/l10n', 'server/protocol', 'server/scene'],
};

/** Rooms that may see the protocol besides those of `APART`. */
export const PROTOCOL_READERS = [
  'server/scene',
  'server/features',
  'server/exchange',
  'server/listening',
  'server/workspace',
  'server/lsp',
  'server/command',
];

/** Rooms from which another room takes types and never values. */
export const TYPES_ONLY: readonly { readonly from: string; readonly to: string; readonly because: string }[] = [
  { from: 'client/webview', to: 'server/protocol', because: 'the webview is handed plain data and needs no code of the server' },
  { from: 'client', to: 'client/webview', because: 'the extension and its webview share messages; each is a program of its own' },
];

/** Packages and the rooms that may import them; `*` is anywhere. Nothing else is allowed outside tests. */
export const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  'fraction.js': ['*'],
  chevrotain: ['grammar'],
  'fastest-levenshtein': ['grammar'],
  '@tonaljs/pitch-interval': ['server/music'],
  '@tonaljs/pitch-note': ['server/music'],
  vexflow: ['server/scene'],
  '@rgrove/parse-xml': ['server/exchange'],
  fflate: ['server/exchange'],
  'midi-file': ['server/exchange'],
  abcjs: ['server/exchange'],
  'fft.js': ['server/listening'],
  pdfkit: ['server/exchange'],
  'svg-to-pdfkit': ['server/exchange'],
  'vscode-jsonrpc': ['server/lsp', 'client'],
  'vscode-languageserver': ['server/lsp'],
  'vscode-languageserver-textdocument': ['server/lsp'],
  'vscode-languageclient': ['client'],
  vscode: ['client'],
  commander: ['server/command'],
  ignore: ['server/workspace', 'server/command'],
  picocolors: ['server/command'],
  'cli-progress': ['server/command'],
  tinyglobby: ['server/command'],
  chokidar: ['server/command'],
  tinypool: ['server/command'],
  diff: ['server/command'],
  sarif: ['server/command'],
};

/** Packages that describe a standard and of which nothing may end up in a bundle. */
export const TYPE_PACKAGES = ['sarif'];

/** Files and rooms that only ever run under Node. Everything else must also run in a web worker or a web page. */
export const NODE = ['server/command/', 'server/lsp/node', 'client/node'];

/** Names that exist only under Node. */
export const NODE_GLOBALS = new Set(['process', 'Buffer', '__dirname', '__filename', 'require', 'setImmediate']);

/** Rooms whose answers may depend on nothing but their arguments, so the same passage gets the same fingering everywhere. */
export const PURE = [
  'server/l10n',
  'grammar',
  'server/music',
  'server/instrument',
  'server/hand',
  'server/passage',
  'server/player',
  'server/solver',
  'server/rules',
  'server/scene',
  'server/practice',
  'server/listening',
];

/** Files outside the grammar that hold a regular expression, and what it reads: never a language of ours. */
export const PATTERNS: Readonly<Record<string, string>> = {
  'client/commands/edit-player.ts': 'ends of lines',
  'client/commands/exchange.ts': 'names of files',
  'client/players.ts': 'patterns of file names',
  'client/preview/page.ts': 'escapes text for HTML',
  'client/webview/save-picture.ts': 'names of files',
  'server/command/check.ts': 'a whole number of an option',
  'server/command/code-cache.ts': 'names of files',
  'server/command/differences.ts': 'ends of lines, and the head of a patch',
  'server/command/inputs.ts': 'paths of files',
  'server/command/json-text.ts': 'escapes text for JSON',
  'server/command/junit.ts': 'characters that XML cannot have',
  'server/command/listing.ts': 'ends of lines',
  'server/command/main.ts': 'what the reader of the command line says',
  'server/command/manual.ts': 'escapes text for the manual',
  'server/command/output.ts': 'paths of files',
  'server/command/player-files.ts': 'the ending of a file name',
  'server/command/sarif.ts': 'the heading of a page, and paths of files',
  'server/command/serve.ts': 'a whole number of an option',
  'server/command/sheet.ts': 'the ending of a file name',
  'server/command/visible.ts': 'characters that terminals obey',
  'server/command/watch.ts': 'patterns of file names',
  'server/features/command-link.ts': 'escapes the address of a link',
  'server/features/literal.ts': 'escapes text for Markdown',
  'server/features/picture.ts': 'escapes the address of a picture',
  'server/l10n/translate.ts': 'holes of a message',
  'server/music/interval.ts': 'names of intervals that the theory library reads too freely',
  'server/music/pitch.ts': 'names of pitches that the theory library reads too freely',
  'server/player/player-choice.ts': 'paths of files',
  'server/scene/page/sealed.ts': 'script and style of an HTML page of ours',
  'server/scene/staff/headings.ts': 'words to be broken into lines',
  'server/scene/staff/outline-context.ts': 'fonts as canvases name them',
  'server/scene/svg.ts': 'escapes text for XML, and shortens numbers',
  'server/workspace/baseline.ts': 'spaces between words',
  'server/workspace/players.ts': 'the ending of a file name',
  'server/workspace/project.ts': 'a byte order mark',
};

/** Calls that let a clock or chance in. */
export const IMPURE = new Set(['Math.random', 'Date.now', 'performance.now', 'new Date']);

/** Longest file, in lines, and those that are longer for a reason. */
export const LONGEST = 300;
export const LONGER: Readonly<Record<string, string>> = {
  'grammar/values/value-parser.ts': 'one Chevrotain parser is one class',
  'server/solver/learned.ts': 'one row for every habit, made by a program',
};

/** The programs that ship: each begins at one file, and a file that none of them leads to is dead. */
export const ENTRIES = [
  'client/node.ts',
  'client/browser.ts',
  'client/webview/main.ts',
  'client/webview/measure/main.ts',
  'server/lsp/node.ts',
  'server/lsp/browser.ts',
  'server/lsp/node-conversion.ts',
  'server/lsp/browser-conversion.ts',
  'server/command/start.ts',
  'server/command/main.ts',
  'server/command/worker.ts',
  'server/command/library.ts',
  'server/exchange/sheet/pdf.ts',
];

const CONVERTERS = ['server/lsp/node-conversion.ts', 'server/lsp/browser-conversion.ts'];
const COMMAND = 'server/command/main.ts';
const PDF = 'server/exchange/sheet/pdf.ts';

/**
 * Packages and files too heavy for a program that starts with every window or every check, and the programs that lead to them at all: the
 * server, the extension and the threads of `check` to none, the preview to the engraver and its signs alone, and PDF is for the programs that print under Node.
 */
export const HEAVY: Readonly<Record<string, readonly string[]>> = {
  pdfkit: [CONVERTERS[0]!, COMMAND, PDF],
  'svg-to-pdfkit': [CONVERTERS[0]!, COMMAND, PDF],
  vexflow: ['client/webview/main.ts', ...CONVERTERS, COMMAND],
  'server/scene/staff/outlines.ts': ['client/webview/main.ts', ...CONVERTERS, COMMAND],
  '@rgrove/parse-xml': [...CONVERTERS, COMMAND],
  fflate: [...CONVERTERS, COMMAND],
  'midi-file': [...CONVERTERS, COMMAND],
};

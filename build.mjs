/**
 * Builds everything that ships into `dist/` and prints each bundle's size beside its limit.
 *
 *   node build.mjs            all bundles, minified
 *   node build.mjs command    only the bundles whose name starts with `command`
 *   node build.mjs --limits   fails where a bundle outgrows its limit
 */
import { execFileSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { transpileDeclaration } from 'typescript';
import { notices } from './notices.mjs';
import { sbom } from './sbom.mjs';

const KB = 1024;

/** What the server may weigh (see DEVELOPERS.md, “What the server is built on”). */
const SERVER = 695 * KB;

/** Node, as VS Code's desktop host and the command run it. Node 20 is the oldest we promise. */
const node = {
  platform: 'node',
  target: 'node20',
  // Packages' ECMAScript modules first: what is not used of them can be left out.
  mainFields: ['module', 'main'],
  format: 'cjs',
  // Some of our parts find their own files by `import.meta.url`, which a CommonJS bundle lacks.
  define: { 'import.meta.url': 'importMetaUrl' },
  banner: { js: "const importMetaUrl = require('node:url').pathToFileURL(__filename).href;" },
};

/**
 * A program of its own, not the library, whose host decides how V8 is run. The V8 of Node 20 makes optimised code of what has hardly run, with types
 * that don't last, and throws it away again: of `check` on 100 notes that was half of all processor time. Sixteen times its patience
 * costs long runs nothing. Later ones count by other measures and are left alone.
 */
const PATIENCE = 16 * 66 * KB;
const program = {
  ...node,
  banner: {
    js: `${node.banner.js}
if (process.versions.v8.startsWith('11.')) require('node:v8').setFlagsFromString('--interrupt-budget=${PATIENCE}');`,
  },
};

/** A web worker (VS Code in the browser) or a web page. */
const browser = { platform: 'browser', target: 'es2022', mainFields: ['module', 'main'] };

/** The writer of PDF is as large as all the rest of the command; command and converter load it only to print a sheet. */
const PDF = 'server/exchange/sheet/pdf.ts';
const pdfApart = {
  name: 'pdf-apart',
  setup(bundler) {
    bundler.onResolve({ filter: /\/exchange\/sheet\/pdf$/ }, ({ importer }) => ({
      path: /[\\/]lsp[\\/]/.test(importer) ? '../pdf.cjs' : './pdf.cjs',
      external: true,
    }));
  },
};

/** The reader of the command line loads what starts other programs, for commands that are programs of their own; ours are none. */
const spawnLate = {
  name: 'spawn-late',
  setup(bundler) {
    bundler.onResolve({ filter: /^node:child_process$/ }, ({ importer, path }) =>
      /[\\/]commander[\\/]/.test(importer) ? { path, namespace: 'late' } : undefined,
    );
    bundler.onLoad({ filter: /.*/, namespace: 'late' }, () => ({
      contents: "module.exports = { get spawn() { return process.getBuiltinModule('node:child_process').spawn; } };",
    }));
  },
};

/**
 * Limits are for each bundle as it is loaded, minified. Names end in `.js` where VS Code insists on it.
 */
const BUNDLES = [
  { name: 'client/node.js', entry: 'client/node.ts', limit: 500 * KB, options: { ...node, external: ['vscode'] } },
  {
    name: 'client/browser.js',
    entry: 'client/browser.ts',
    limit: 500 * KB,
    options: { ...browser, format: 'cjs', external: ['vscode'] },
  },
  { name: 'server/node.js', entry: 'server/lsp/node.ts', limit: SERVER, options: program },
  { name: 'server/browser.js', entry: 'server/lsp/browser.ts', limit: SERVER, options: { ...browser, format: 'iife' } },
  // Started for one import or export and ended after it, so it weighs on no editing session.
  {
    name: 'server/node-conversion.js',
    entry: 'server/lsp/node-conversion.ts',
    options: { ...program, plugins: [pdfApart] },
  },
  {
    name: 'server/browser-conversion.js',
    entry: 'server/lsp/browser-conversion.ts',
    options: { ...browser, format: 'iife' },
  },
  { name: 'webview.js', entry: 'client/webview/main.ts', limit: 500 * KB, options: { ...browser, format: 'iife' } },
  {
    name: 'measure.js',
    entry: 'client/webview/measure/main.ts',
    limit: 500 * KB,
    options: { ...browser, format: 'iife' },
  },
  { name: 'command.cjs', entry: 'server/command/start.ts', options: shebang(program) },
  // ASCII alone: it is read at every start, and so it is read as it stands. Kept code can require, but not import.
  {
    name: 'command-program.cjs',
    entry: 'server/command/main.ts',
    options: { ...node, charset: 'ascii', supported: { 'dynamic-import': false }, plugins: [pdfApart, spawnLate] },
  },
  { name: 'pdf.cjs', entry: PDF, options: node },
  { name: 'library.cjs', entry: 'server/command/library.ts', options: node },
  // The threads of `check` over many files: ours, and the thread pool's own, which it looks for beside itself.
  { name: 'command-worker.cjs', entry: 'server/command/worker.ts', options: node },
  { name: 'entry/worker.js', entry: 'node_modules/tinypool/dist/entry/worker.js', options: node },
];

/** The text fonts of printed sheets, which the command reads when it prints one. */
const FONTS = { regular: 'DejaVuSansCondensed', bold: 'DejaVuSansCondensed-Bold', italic: 'DejaVuSansCondensed-Oblique' };

function copyFonts() {
  mkdirSync('dist/fonts', { recursive: true });
  return Object.entries(FONTS).map(([face, file]) => {
    const source = `node_modules/dejavu-fonts-ttf/ttf/${file}.ttf`;
    copyFileSync(source, `dist/fonts/${face}.ttf`);
    return source;
  });
}

function shebang(options) {
  return { ...options, banner: { js: `#!/usr/bin/env node\n${options.banner.js}` } };
}

async function bundle({ name, entry, options }) {
  const outfile = `dist/${name}`;
  const result = await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    minify: true,
    keepNames: false,
    metafile: true,
    charset: 'utf8',
    legalComments: 'none',
    logLevel: 'warning',
    loader: { '.md': 'text', '.svg': 'text' },
    ...options,
  });
  if (name.startsWith('command')) chmodSync(outfile, 0o755);
  // What was shaken off does not ship.
  const [output] = Object.values(result.metafile.outputs);
  return Object.entries(output.inputs).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 ? [path] : []));
}

/** Takes away what an earlier build left and this one doesn't make; the rest stays in place, for whoever is running it. */
function clear() {
  const kept = new Set(BUNDLES.flatMap(({ name }) => [name, name.replace(/\.js$/, '.css')]));
  for (const path of readdirSync('dist', { recursive: true })) {
    if (!kept.has(path.replaceAll('\\', '/')) && statSync(`dist/${path}`).isFile()) rmSync(`dist/${path}`);
  }
}

/** What a program that uses the library knows of it: types of its own files only, which name nothing of the inside. */
function declare() {
  for (const name of ['library', 'report']) {
    const { outputText, diagnostics } = transpileDeclaration(readFileSync(`server/command/${name}.ts`, 'utf8'), {
      fileName: `${name}.ts`,
      compilerOptions: {},
      reportDiagnostics: true,
    });
    if (diagnostics?.length > 0) throw new Error(`${name}.ts: ${diagnostics[0].messageText}`);
    writeFileSync(`dist/${name}.d.ts`, outputText);
  }
}

/** One line for a bundle; true when it fits. */
function weigh({ name, limit }) {
  const size = statSync(`dist/${name}`).size;
  const fits = limit === undefined || size <= limit;
  const goal = limit === undefined ? '' : `  limit ${limit / KB} KB${fits ? '' : '  TOO LARGE'}`;
  console.log(`${name.padEnd(28)} ${(size / KB).toFixed(1).padStart(7)} KB${goal}`);
  return fits;
}

const wanted = process.argv.slice(2).find((word) => !word.startsWith('--')) ?? '';
const limits = process.argv.includes('--limits');
mkdirSync('dist', { recursive: true });
const chosen = BUNDLES.filter(({ name }) => name.startsWith(wanted));
// One that fails to build has said why; the others are still of use to whoever is at work on it.
const built = await Promise.allSettled(chosen.map(bundle));
const made = chosen.filter((_, index) => built[index].status === 'fulfilled');
if (!wanted) {
  clear();
  const shipped = [...copyFonts(), ...built.flatMap(({ value }) => value ?? [])];
  writeFileSync('dist/NOTICES.txt', notices(shipped));
  writeFileSync('dist/sbom.json', sbom(shipped));
  declare();
  writeFileSync('dist/passagework.1', execFileSync(process.execPath, ['dist/command.cjs', 'manual']));
}
const fits = made.map(weigh);
if ((limits && fits.includes(false)) || made.length < chosen.length) process.exitCode = 1;

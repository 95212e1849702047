import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

/** What ships, looked through for everything that could run text as a program, or reach another machine. `npm run build` must have run. */
const BUNDLES = readdirSync('dist', { recursive: true })
  .map((path) => String(path).replaceAll('\\', '/'))
  .filter((path) => /\.c?js$/.test(path));

/** By kind: what libraries bring along, and why it does no harm here. Anything else is a fault. */
const KNOWN: Readonly<Record<string, readonly RegExp[]>> = {
  // The engraver's last way to find the global object, taken only where there is no `globalThis`, no `self` and no `window`.
  'runs text: Function("return this")': [/^webview\.js$/, /^command-program\.cjs$/, /^server\/(?:node|browser)-conversion\.js$/],
  // How the thread pool imports the file that it is told to run: our own `command-worker.cjs`.
  'runs text: Function("specifier")': [/^entry\/worker\.js$/],
  // The language server's libraries can speak over a pipe or a socket; ours is started over standard streams or a message port.
  'may reach a machine: net': [/^server\/node(?:-conversion)?\.js$/, /^client\/node\.js$/],
  // The command's loader runs `command-program.cjs` beside it, with what V8 compiled of that very file (see code-cache.ts), and no other text.
  'may reach a machine: vm': [/^command\.cjs$/],
};

const RUNNERS = new Set(['eval', 'Function']);
const CALLERS = new Set(['fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource', 'WebTransport', 'importScripts', 'sendBeacon']);
const GLOBALS = new Set(['globalThis', 'window', 'self', 'global', 'navigator']);
const NETWORK = new Set(['http', 'https', 'http2', 'net', 'tls', 'dgram', 'dns', 'dns/promises', 'inspector', 'vm', 'repl']);

function found(text: string): readonly string[] {
  const all: string[] = [];
  const source = ts.createSourceFile('bundle.js', text, ts.ScriptTarget.ESNext, false, ts.ScriptKind.JS);
  // Minified sums and lists nest too deep for a recursion.
  const open: ts.Node[] = [source];
  for (let node = open.pop(); node; node = open.pop()) {
    if (ts.isCallExpression(node) || ts.isNewExpression(node)) {
      const name = called(node.expression);
      const [first] = node.arguments ?? [];
      const given = first && ts.isStringLiteralLike(first) ? first.text : undefined;
      if (name && RUNNERS.has(name)) all.push(`runs text: ${name}(${JSON.stringify(given)})`);
      if (name && CALLERS.has(name)) all.push(`may reach a machine: ${name}`);
      if (name === 'require' && given && NETWORK.has(given.replace(/^node:/, '')))
        all.push(`may reach a machine: ${given.replace(/^node:/, '')}`);
      if ((name === 'setTimeout' || name === 'setInterval') && given !== undefined) all.push(`runs text: ${name}`);
    }
    if (ts.isBlock(node)) open.push(...live(node));
    else ts.forEachChild(node, (child) => void open.push(child));
  }
  return all;
}

/** What stands behind a `return` is never run: the parser's library keeps an `eval` there, to keep optimizers off. */
function live({ statements }: ts.Block): readonly ts.Statement[] {
  const end = statements.findIndex(ts.isReturnStatement);
  return statements.filter((statement, at) => end < 0 || at <= end || ts.isFunctionDeclaration(statement));
}

/** The global that an expression calls: `eval`, `(0, eval)`, `globalThis.fetch`. */
function called(expression: ts.Expression): string | undefined {
  if (ts.isIdentifier(expression)) return expression.text;
  if (ts.isParenthesizedExpression(expression)) return called(expression.expression);
  if (ts.isBinaryExpression(expression) && expression.operatorToken.kind === ts.SyntaxKind.CommaToken)
    return called(expression.right);
  if (
    ts.isPropertyAccessExpression(expression) &&
    ts.isIdentifier(expression.expression) &&
    GLOBALS.has(expression.expression.text)
  )
    return expression.name.text;
  return undefined;
}

describe('what ships', () => {
  it('would be found out', () => {
    expect(
      found('eval("1");(0,eval)(x);new Function("a");globalThis.fetch(u);new WebSocket(u);require("node:https")'),
    ).toHaveLength(6);
    expect(found('scenes.fetch(uri);this.eval(x);function f(){return 1;eval(x)}')).toEqual([]);
    expect([...NETWORK].filter((name) => !builtinModules.includes(name))).toEqual([]);
  });

  it.each(BUNDLES)('%s runs no text as a program and reaches no other machine', (name) => {
    const unknown = found(readFileSync(`dist/${name}`, 'utf8')).filter((what) => !KNOWN[what]?.some((where) => where.test(name)));
    expect([...new Set(unknown)]).toEqual([]);
  });
});

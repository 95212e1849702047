/**
 * How well the tests of a room would notice a fault in it: small faults (mutants) are put into its code one at a time, as the
 * tests load it and never on disk, and the room's own tests are run against each. `node tests/support/mutants.mjs [COUNT] [SEED]`
 * draws COUNT of them for every room; survivors are printed, each a place to look at.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import ts from 'typescript';

/** Rooms with the tests that speak for them. */
const ROOMS = {
  grammar: ['tests/grammar'],
  'server/music': ['tests/music', 'tests/published'],
  'server/instrument': ['tests/instrument', 'tests/published'],
  'server/hand': ['tests/hand', 'tests/solver/practice'],
  'server/solver': ['tests/solver'],
};

const OPERATORS = {
  '+': '-',
  '-': '+',
  '*': '/',
  '/': '*',
  '<': '<=',
  '<=': '<',
  '>': '>=',
  '>=': '>',
  '===': '!==',
  '!==': '===',
  '&&': '||',
  '||': '&&',
};

/** Every mutant of a file: what stands from `start` to `end` becomes `text`. */
function mutantsOf(path) {
  const source = readFileSync(path, 'utf8');
  const tree = ts.createSourceFile(path, source, ts.ScriptTarget.Latest, true);
  const found = [];
  const add = (node, text) =>
    found.push({
      path,
      start: node.getStart(tree),
      end: node.getEnd(),
      text,
      line: tree.getLineAndCharacterOfPosition(node.getStart(tree)).line + 1,
    });
  const visit = (node) => {
    if (ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isImportDeclaration(node)) return;
    if (ts.isBinaryExpression(node)) {
      const other = OPERATORS[node.operatorToken.getText(tree)];
      if (other) add(node.operatorToken, other);
    } else if (ts.isNumericLiteral(node)) add(node, `(${node.text} + 1)`);
    else if (node.kind === ts.SyntaxKind.TrueKeyword) add(node, 'false');
    else if (node.kind === ts.SyntaxKind.FalseKeyword) add(node, 'true');
    else if (ts.isIfStatement(node)) add(node.expression, `!(${node.expression.getText(tree)})`);
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

/** `count` of a list, always the same ones for a seed. */
function drawn(list, count, seed) {
  let state = seed;
  const rest = [...list];
  const taken = [];
  while (taken.length < count && rest.length > 0) {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    taken.push(...rest.splice(state % rest.length, 1));
  }
  return taken;
}

const [count, seed] = [Number(process.argv[2] ?? 12), Number(process.argv[3] ?? 1)];
for (const [room, tests] of Object.entries(ROOMS)) {
  const all = globSync(`${room}/*.ts`).sort().flatMap(mutantsOf);
  const sample = drawn(all, count, seed);
  let noticed = 0;
  for (const mutant of sample) {
    const run = spawnSync('npx', ['vitest', 'run', '--bail', '1', ...tests], {
      env: { ...process.env, MUTANT: JSON.stringify(mutant) },
      encoding: 'utf8',
      timeout: 180_000,
    });
    if (run.status !== 0) noticed++;
    else console.log(`  survived: ${mutant.path}:${mutant.line} -> ${mutant.text}`);
  }
  console.log(`${room}: ${noticed} of ${sample.length} noticed (drawn from ${all.length})`);
}

import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { posix } from 'node:path';
import ts from 'typescript';

/** One import or re-export of a source file. */
export interface Import {
  readonly specifier: string;
  readonly line: number;
  /** Leaves nothing behind after compilation. */
  readonly typeOnly: boolean;
}

/** What the layers need to know of one file. */
export interface Source {
  /** From the top of the project, with `/`. */
  readonly path: string;
  readonly imports: readonly Import[];
  /** The lines that regular expressions stand on. */
  readonly patterns: readonly number[];
  /** Free names and calls it uses, for the rules around Node, the clock and chance. */
  readonly names: readonly { readonly name: string; readonly line: number }[];
}

/** Every TypeScript file under a folder, in order of path. */
export function sourcePaths(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /(?<!\.d)\.ts$/.test(entry.name))
    .map((entry) => posix.join(entry.parentPath.replaceAll('\\', '/'), entry.name))
    .sort();
}

const read = new Map<string, Source>();

export function readSource(path: string): Source {
  const source = read.get(path) ?? parseSource(path, readFileSync(path, 'utf8'));
  read.set(path, source);
  return source;
}

export function lineCount(text: string): number {
  return text.split('\n').length - (text.endsWith('\n') ? 1 : 0);
}

export function parseSource(path: string, text: string): Source {
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
  const imports: Import[] = [];
  const names: { name: string; line: number }[] = [];
  const patterns: number[] = [];
  const lineOf = (node: ts.Node) => file.getLineAndCharacterOfPosition(node.getStart(file)).line + 1;
  const add = (specifier: ts.Node | undefined, typeOnly: boolean) => {
    if (specifier && ts.isStringLiteralLike(specifier))
      imports.push({ specifier: specifier.text, line: lineOf(specifier), typeOnly });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node.moduleSpecifier, importsTypes(node.importClause));
    else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly);
    else if (ts.isImportTypeNode(node)) add(ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined, true);
    else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) add(node.arguments[0], false);
    else if (ts.isPropertyAccessExpression(node) && ts.isIdentifier(node.expression)) {
      names.push({ name: `${node.expression.text}.${node.name.text}`, line: lineOf(node) });
    } else if (ts.isNewExpression(node) && ts.isIdentifier(node.expression) && !node.arguments?.length) {
      names.push({ name: `new ${node.expression.text}`, line: lineOf(node) });
    }
    if (ts.isRegularExpressionLiteral(node)) patterns.push(lineOf(node));
    if (ts.isIdentifier(node) && isFreeUse(node)) names.push({ name: node.text, line: lineOf(node) });
    ts.forEachChild(node, visit);
  };
  visit(file);
  return { path, imports, patterns, names };
}

function importsTypes(clause: ts.ImportClause | undefined): boolean {
  if (!clause) return false;
  if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return true;
  const bindings = clause.namedBindings;
  return (
    !clause.name &&
    !!bindings &&
    ts.isNamedImports(bindings) &&
    bindings.elements.length > 0 &&
    bindings.elements.every((e) => e.isTypeOnly)
  );
}

/** A name that is read, as opposed to a property, a key, a parameter or a declaration of the file's own. */
function isFreeUse(node: ts.Identifier): boolean {
  const parent = node.parent;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isCallExpression(parent) || ts.isNewExpression(parent)) return true;
  return ts.isBinaryExpression(parent) || ts.isVariableDeclaration(parent)
    ? (parent as ts.VariableDeclaration).name !== node
    : false;
}

/** Where an import leads: a file of ours, a built-in of Node, or a package by name. */
export function target(path: string, specifier: string): { readonly kind: 'file' | 'node' | 'package'; readonly name: string } {
  if (specifier.startsWith('.')) return { kind: 'file', name: posix.join(posix.dirname(path), specifier) };
  const bare = specifier.replace(/^node:/, '');
  if (specifier.startsWith('node:') || builtinModules.includes(bare)) return { kind: 'node', name: bare };
  const parts = specifier.split('/');
  return { kind: 'package', name: parts.slice(0, specifier.startsWith('@') ? 2 : 1).join('/') };
}

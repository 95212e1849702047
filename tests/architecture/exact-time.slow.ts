import ts from 'typescript';
import { expect, it } from 'vitest';

/**
 * Times are fractions, and two fractions of one value are two objects unless both were made one (`server/music/time.ts`). So `===`
 * holds between exact times only, and `<` between none: it would compare rounded numbers.
 */
function slips(program: ts.Program, files: (path: string) => boolean): readonly string[] {
  const checker = program.getTypeChecker();
  const isFraction = (type: ts.Type): boolean =>
    type.isUnion() ? type.types.some(isFraction) : checker.getPropertyOfType(type, 'toFraction') !== undefined;
  /** The members that are no fraction may be compared with anything. */
  const isExact = (type: ts.Type): boolean =>
    type.isUnion()
      ? type.types.filter(isFraction).every(isExact)
      : !isFraction(type) || type.getProperties().some(({ escapedName }) => String(escapedName).startsWith('__@ONE'));
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isBinaryExpression(node)) {
      const sides = [node.left, node.right].map((side) => checker.getTypeAtLocation(side));
      const operator = node.operatorToken.getText();
      const identity = /^[!=]==?$/.test(operator) && sides.every(isFraction) && !sides.every(isExact);
      const order = /^[<>]=?$/.test(operator) && sides.some(isFraction);
      if (identity || order) {
        const file = node.getSourceFile();
        found.push(`${file.fileName}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}: ${node.getText()}`);
      }
    }
    ts.forEachChild(node, visit);
  };
  for (const file of program.getSourceFiles()) if (files(file.fileName)) visit(file);
  return found;
}

const { config } = ts.readConfigFile('tsconfig.json', ts.sys.readFile);
const { options } = ts.parseJsonConfigFileContent(config, ts.sys, '.');

it('no times are compared by accident', () => {
  const { fileNames } = ts.parseJsonConfigFileContent({ ...config, include: ['server'], exclude: [] }, ts.sys, '.');
  const program = ts.createProgram(fileNames, options);
  expect(slips(program, (path) => /\/server\//.test(path) && !path.includes('node_modules'))).toEqual([]);
});

it('a slip is found', () => {
  const text = `import type Fraction from 'fraction.js';
    import { exactly, NO_TIME, type Exact } from './time';
    declare const some: Fraction; declare const maybe: Exact | undefined;
    export const wrong = [some === NO_TIME, exactly(1, 2).add(1) !== NO_TIME, some < NO_TIME, maybe === some];
    export const right = [maybe === NO_TIME, maybe === undefined, some === undefined, some.lt(NO_TIME)];`;
  const host = ts.createCompilerHost(options);
  const path = `${process.cwd()}/server/music/slip.ts`;
  const read = host.getSourceFile.bind(host);
  host.getSourceFile = (name, language) =>
    name === path ? ts.createSourceFile(name, text, language, true) : read(name, language);
  host.fileExists = (name) => name === path || ts.sys.fileExists(name);
  const found = slips(ts.createProgram([path], options, host), (name) => name === path);
  expect(found.map((slip) => slip.replace(/^.*: /, ''))).toEqual([
    'some === NO_TIME',
    'exactly(1, 2).add(1) !== NO_TIME',
    'some < NO_TIME',
    'maybe === some',
  ]);
});

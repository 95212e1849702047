import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';

const FILE = ['tempo: 1/4 = 60', '1/4 D5 E5 F#5 G5 |', '> Light bow.', 'A5 B5 C#6 D6o ||', ''].join('\n');

function replaced(text: string, from: string, to: string): string {
  const at = text.indexOf(from);
  expect(at).toBeGreaterThanOrEqual(0);
  return text.slice(0, at) + to + text.slice(at + from.length);
}

describe('an edit leaves the nodes of other lines as the same objects', () => {
  const before = parse(FILE);

  test('inside one line', () => {
    const after = parse(replaced(FILE, 'F#5', 'F#5o'), before);
    expect(after.lines.map(({ node }, i) => node === before.lines[i]?.node)).toEqual([true, false, true, true, true]);
    expect(after.lines.map(({ start }, i) => start - before.lines[i]!.start)).toEqual([0, 0, 1, 1, 1]);
    expect(after.lines[0]).toBe(before.lines[0]);
  });

  test('of the same length keeps the lines themselves', () => {
    const after = parse(replaced(FILE, 'F#5', 'F#6'), before);
    expect(after.lines.map((line, i) => line === before.lines[i])).toEqual([true, false, true, true, true]);
  });

  test('a new line, a removed line, a split line, a joined line', () => {
    const [tempo, first, instruction, second, last] = before.lines.map(({ node }) => node);
    const nodes = (text: string) => parse(text, before).lines.map(({ node }) => node);
    expect(
      nodes(replaced(FILE, '> Light', '// new\n> Light')).filter((node) => before.lines.some((line) => line.node === node)),
    ).toEqual([tempo, first, instruction, second, last]);
    const removed = nodes(replaced(FILE, '> Light bow.\n', ''));
    expect(removed).toHaveLength(4);
    [tempo, first, second, last].forEach((node, i) => void expect(removed[i]).toBe(node));
    const split = nodes(replaced(FILE, 'E5 F#5', 'E5\nF#5'));
    expect(split[0]).toBe(tempo);
    expect(split[3]).toBe(instruction);
    const joined = nodes(replaced(FILE, '|\n>', '| >'));
    expect(joined[0]).toBe(tempo);
    expect(joined[2]).toBe(second);
  });

  test('lines that change places keep their nodes', () => {
    const [a, b, c, d] = FILE.split('\n');
    const after = parse([a, d, c, b, ''].join('\n'), before);
    expect(after.lines[1]?.node).toBe(before.lines[3]?.node);
    expect(after.lines[3]?.node).toBe(before.lines[1]?.node);
  });

  test('no edit gives the tree itself', () => {
    expect(parse(FILE, before)).toBe(before);
  });

  test('another kind of line break changes no node', () => {
    const after = parse(FILE.replaceAll('\n', '\r\n'), before);
    expect(after.lines.map(({ node }, i) => node === before.lines[i]?.node)).toEqual([true, true, true, true, true]);
  });

  test('a line feed typed after a carriage return makes one break of the two', () => {
    const old = parse('D5\rE5');
    const next = parse('D5\r\nE5', old);
    expect(next).toEqual(parse('D5\r\nE5'));
    expect(next.lines[1]?.node).toBe(old.lines[1]?.node);
    expect(parse('D5\rE5', next)).toEqual(old);
  });
});

test('the same text on two lines gives equal nodes', () => {
  const { lines } = parse('D5 E5\nA5\nD5 E5');
  expect(lines[0]?.node).toEqual(lines[2]?.node);
});

test('what an old version of the text was is not kept alive by the nodes read from it', () => {
  // Engines keep a string alive for as long as a slice of it; a node that outlives an edit must hold copies.
  setFlagsFromString('--expose-gc');
  const gc: () => void = runInNewContext('gc');
  const block = 'D5 E5 // the quick harbour seal counts every lamp along the quay\n'.repeat(20_000);
  let tree = parse(block);
  const used = () => {
    gc();
    return process.memoryUsage().heapUsed;
  };
  const before = used();
  for (let i = 0; i < 300; i++) {
    const at = i * 60 * 65;
    // Joined anew, so that every version is a string of its own.
    tree = parse([tree.text.slice(0, at), `A5 // edit number ${i} on this quay\n`, tree.text.slice(at)].join(''), tree);
  }
  // 300 versions of 1.3 MB would be 390 MB; what 300 edited lines hold is far below one tenth of it.
  expect(used() - before).toBeLessThan(80e6);
  expect(tree.lines).toHaveLength(20_301);
});

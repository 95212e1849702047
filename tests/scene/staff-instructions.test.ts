import { expect, test } from 'vitest';
import { drawStaff, drawSystems } from '../../server/scene/staff/staff';
import { attribute, elements } from './markup';
import { passageOf } from './solved';

const LONG = 'Full bows all the way to the tip, and lift the touching finger as soon as the note has spoken.';
const BOTH = `> ${LONG}\n1/4 D5 E5 |\n> ${LONG}\nF#5 G5 | A5 B5 ||\n`;

/** Lines of words over a staff, with the place where each begins; positions are printed in the same hand, smaller. */
function told(svg: string): readonly { readonly x: number; readonly y: number }[] {
  const words = elements(svg, 'text', 'font-style', 'italic').filter((text) => attribute(text, 'font-size') === '13');
  return words.map((text) => ({
    x: Number(attribute(text, 'x')),
    y: Number(attribute(text, 'y')),
  }));
}

test('what is said over a bar begins a line, so two instructions never stand on each other', () => {
  const systems = drawSystems(passageOf(BOTH), { width: 900 });
  expect(systems.map(({ svg }) => told(svg).length > 0)).toEqual([true, true]);
  expect(drawSystems(passageOf(BOTH.replace(/^> .*\n/gm, '')), { width: 900 })).toHaveLength(1);
});

test('a short line leaves its words the whole width of the sheet', () => {
  const lines = told(drawStaff(passageOf(BOTH), { width: 900 }).svg);
  // One line of words over each of the two systems: in the width of two bars each would take several.
  expect(lines).toHaveLength(2);
});

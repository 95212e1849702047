import type { SceneFinger, SceneNote } from '../../protocol/scene';
import { filled, LIGHT, outlined, type Role } from '../look';
import { num, tag } from '../svg';
import type { Frame, Point } from './frame';

/** How a note's marks are drawn: as played now, as a ghost of what comes next, or as another choice held against it. */
export type Manner = 'now' | 'next' | 'other';

/** Half the height of a mark across the string, mm: a fingertip is about as wide as it is long. */
const HALF = 3.1;

/** A closed or open path through points given as mm along and across; commands as in SVG. */
function path(frame: Frame, ...steps: readonly (string | Place)[]): string {
  return steps
    .map((step) => {
      if (typeof step === 'string') return step;
      const { x, y } = frame.at(step[0], step[1]);
      return `${num(x)} ${num(y)}`;
    })
    .join(' ');
}

/** All marks of one note: room, fingers, or the flag of an open string. */
export function noteMarks(frame: Frame, note: SceneNote, manner: Manner): string {
  const marks = [];
  if (manner === 'now') marks.push(room(frame, note));
  if (note.stop) marks.push(thimble(frame, note, note.stop, manner));
  if (note.touch) marks.push(ring(frame, note, note.touch, manner));
  if (note.kind === 'open') marks.push(pennant(frame, note, manner));
  return tag('g', { class: `pw-note pw-${manner}`, 'data-string': note.string, 'data-kind': note.kind }, marks.join(''));
}

/** Which colour a note's own mark has. */
export function roleOf(note: SceneNote): Role {
  return note.kind === 'open' ? 'open' : note.touch ? 'touch' : 'stop';
}

/**
 * How the string moves while it sounds: `partial` loops between the nut or stopping finger and the
 * bridge, standing still at every point of division.
 */
export function motion(frame: Frame, note: SceneNote): string {
  const start = frame.board.length - note.length;
  const loop = note.length / note.partial;
  const swing = 2.3 / Math.sqrt(note.partial);
  const loops = Array.from({ length: note.partial }, (_, index) => start + index * loop).filter((from) => from < frame.end);
  const side = (from: number, sign: number): string => {
    // A cubic with these handles runs within 2 % of half a sine; along the string it runs so evenly that its
    // parameter serves as the length, which is how it is cut where the drawing ends.
    const lift = (sign * swing * 4) / 3;
    const a = frame.across(note.stringIndex, from);
    const b = frame.across(note.stringIndex, from + loop);
    const [p, q, r, t] = cut(
      [from, a],
      [from + loop / 3, a + lift],
      [from + (2 * loop) / 3, b + lift],
      [from + loop, b],
      (frame.end - from) / loop,
    );
    return path(frame, 'M', p, 'C', q, r, t);
  };
  const d = loops.map((from) => `${side(from, 1)} ${side(from, -1)}`).join(' ');
  return tag('path', { ...outlined(roleOf(note), 0.36, 'pw-motion'), d, 'fill-opacity': 0.1, 'stroke-opacity': 0.75 });
}

type Place = readonly [along: number, across: number];

/** The part of a cubic up to parameter `t` (de Casteljau); the whole of it from 1 on. */
function cut(a: Place, b: Place, c: Place, d: Place, t: number): readonly [Place, Place, Place, Place] {
  if (t >= 1) return [a, b, c, d];
  const between = (p: Place, q: Place): Place => [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
  const ab = between(a, b);
  const bc = between(b, c);
  const abc = between(ab, bc);
  return [a, ab, abc, between(abc, between(bc, between(c, d)))];
}

/** The room a finger has: the band within which the note is still good. */
function room(frame: Frame, note: SceneNote): string {
  const place = note.touch ?? note.stop;
  if (!place || !note.tolerance) return '';
  const from = place.mm - note.tolerance;
  const to = Math.min(place.mm + note.tolerance, frame.end);
  const across = frame.across(note.stringIndex, place.mm);
  const half = HALF + 0.9;
  const role = roleOf(note);
  const box = path(
    frame,
    'M',
    [from, across - half],
    'L',
    [to, across - half],
    'L',
    [to, across + half],
    'L',
    [from, across + half],
    'Z',
  );
  const ends = path(frame, 'M', [from, across - half], 'L', [from, across + half], 'M', [to, across - half], 'L', [
    to,
    across + half,
  ]);
  return (
    tag('path', { ...filled(role, 'pw-room'), 'fill-opacity': 0.2, d: box, 'data-from': num(from), 'data-to': num(to) }) +
    tag('path', { ...outlined(role, 0.45), 'stroke-dasharray': '1.1 0.7', d: ends })
  );
}

/** A finger that presses: flat where it ends the string, its flesh behind that toward the nut. */
function thimble(frame: Frame, note: SceneNote, place: SceneFinger, manner: Manner): string {
  const { mm } = place;
  const width = frame.board.contact;
  const c = frame.across(note.stringIndex, mm);
  const back = mm - width;
  const bend = mm - width * 0.5;
  const d = path(
    frame,
    'M',
    [mm, c - HALF],
    'L',
    [mm, c + HALF],
    'L',
    [bend, c + HALF],
    'C',
    [back, c + HALF],
    [back, c - HALF],
    [bend, c - HALF],
    'Z',
  );
  if (manner !== 'now')
    return outlineOnly(d, 'stop', manner) + letter(frame, place.finger, frame.at(mm - width * 0.46, c), 'stop', manner);
  const edge = path(frame, 'M', [mm, c - HALF - 1.1], 'L', [mm, c + HALF + 1.1]);
  return (
    tag('path', { ...filled('stop', 'pw-thimble'), d, 'data-mm': num(mm) }) +
    tag('path', { ...outlined('stop', 0.9), d: edge, 'stroke-linecap': 'round' }) +
    letter(frame, place.finger, frame.at(mm - width * 0.46, c), 'paper', manner)
  );
}

/** A finger that only touches: hollow, as wide along the string as the finger covers of it. */
function ring(frame: Frame, note: SceneNote, place: SceneFinger, manner: Manner): string {
  const c = frame.across(note.stringIndex, place.mm);
  const r = frame.board.contact / 2;
  const at = frame.at(place.mm, c);
  const radii = frame.upright ? { rx: HALF + 0.3, ry: r } : { rx: r, ry: HALF + 0.3 };
  const shape = { cx: at.x, cy: at.y, ...radii };
  if (manner !== 'now') {
    return (
      tag('ellipse', {
        ...shape,
        ...outlined('touch', 0.55),
        'stroke-dasharray': manner === 'next' ? '1.2 0.8' : '0.1 1',
        'stroke-linecap': 'round',
      }) + letter(frame, place.finger, at, 'touch', manner)
    );
  }
  return (
    tag('ellipse', {
      ...shape,
      class: 'pw-fill-paper pw-line-touch pw-ring',
      fill: LIGHT.paper,
      'fill-opacity': 0.82,
      stroke: LIGHT.touch,
      'stroke-width': 0.9,
      'data-mm': num(place.mm),
    }) + letter(frame, place.finger, at, 'touch', manner)
  );
}

/** An open string: a flag flown from the nut. */
function pennant(frame: Frame, note: SceneNote, manner: Manner): string {
  const c = frame.across(note.stringIndex, 0);
  const h = Math.min(HALF, Math.abs(frame.across(0, 0) - frame.across(1, 0)) / 2 - 0.2);
  const d = path(frame, 'M', [-1.4, c - h], 'L', [-8.2, c], 'L', [-1.4, c + h], 'Z');
  if (manner !== 'now') return outlineOnly(d, 'open', manner);
  return tag('path', {
    class: 'pw-fill-paper pw-line-open pw-pennant',
    fill: LIGHT.paper,
    stroke: LIGHT.open,
    'stroke-width': 0.9,
    'stroke-linejoin': 'round',
    d,
  });
}

function outlineOnly(d: string, role: Role, manner: Manner): string {
  return tag('path', {
    ...outlined(role, 0.55),
    d,
    'stroke-dasharray': manner === 'next' ? '1.2 0.8' : '0.1 1',
    'stroke-linecap': 'round',
  });
}

/** A finger's number, in the middle of its mark. */
function letter(frame: Frame, text: string, at: Point, role: Role, manner: Manner): string {
  const size = Math.min(5.2, Math.max(4.2, 10.5 * frame.px));
  return tag(
    'text',
    {
      x: at.x,
      y: at.y + size * 0.355,
      ...filled(role),
      'font-size': size,
      'font-weight': manner === 'now' ? 700 : 400,
      'text-anchor': 'middle',
    },
    text,
  );
}

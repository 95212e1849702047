import { Element, Font, type FontInfo, RenderContext, type TextMeasure } from 'vexflow/core';
import { LIGHT, type Role } from '../look';
import { escaped, num, tag } from '../svg';
import { OUTLINES } from './outlines';

/** px of an em when a font size is given in points, as the engraver's is. */
const PX_PER_POINT = 4 / 3;
/** Mean width of a letter, em: plain words on the staff are placed by their start, so a guess is enough. */
const LETTER = 0.55;

/** Music signs lie in the private use area of Unicode. */
function isSign(character: string): boolean {
  const code = character.codePointAt(0) ?? 0;
  return code >= 0xe000 && code <= 0xf8ff;
}

function outlineOf(character: string) {
  const outline = OUTLINES.get(character.codePointAt(0) as number);
  if (!outline)
    throw new Error(`no outline for the sign U+${character.codePointAt(0)?.toString(16).toUpperCase()}: add it to outlines.mjs`);
  return outline;
}

/** Pixels of a font size: a number or `30pt` are points. */
export function pixels(size: string | number | undefined): number {
  if (typeof size === 'number') return size * PX_PER_POINT;
  const value = Number.parseFloat(size ?? '30pt');
  return size?.trim().endsWith('px') ? value : value * PX_PER_POINT;
}

/** Width and box of a line of signs or letters at `em` px; as a canvas would measure it. */
export function measuredText(text: string, em: number) {
  let advance = 0;
  let [left, top, right, bottom] = [Number.POSITIVE_INFINITY, 0, 0, 0];
  for (const character of text) {
    const { advance: step, box } = isSign(character)
      ? outlineOf(character)
      : { advance: LETTER * 1000, box: [0, -700, LETTER * 1000, 200] as const };
    left = Math.min(left, advance + box[0]);
    top = Math.min(top, box[1]);
    right = Math.max(right, advance + box[2]);
    bottom = Math.max(bottom, box[3]);
    advance += step;
  }
  const size = em / 1000;
  return {
    width: advance * size,
    actualBoundingBoxLeft: -(Number.isFinite(left) ? left : 0) * size,
    actualBoundingBoxRight: right * size,
    actualBoundingBoxAscent: -top * size,
    actualBoundingBoxDescent: bottom * size,
    fontBoundingBoxAscent: em,
    fontBoundingBoxDescent: em / 4,
    emHeightAscent: em,
    emHeightDescent: em / 4,
    alphabeticBaseline: 0,
    hangingBaseline: 0,
    ideographicBaseline: 0,
  };
}

/** One sign as a path; `em` px, baseline at (x, y). */
export function sign(code: number, x: number, y: number, em: number, role: Role = 'ink'): string {
  const { d } = outlineOf(String.fromCodePoint(code));
  return tag('path', {
    class: `pw-fill-${role}`,
    fill: LIGHT[role],
    transform: `translate(${num(x)} ${num(y)}) scale(${num(em / 1000)})`,
    d,
  });
}

// The engraver measures its signs on a canvas. Node has none and a page's would need the font: it measures our outlines.
const ruler = {
  font: '',
  measureText: (text: string) => measuredText(text, pixels(/([\d.]+(?:pt|px))/.exec(ruler.font)?.[1])),
};
Element.setTextMeasurementCanvas({ getContext: () => ruler } as never);

// It also lets a page's style parser read fonts back that it wrote itself as `italic bold 30pt Name`.
Font.fromCSSString = (text) => {
  const [, before = '', size = '30pt', family = ''] = /^(.*?)([\d.]+(?:pt|px))\s*(.*)$/.exec(text) ?? [];
  return {
    family,
    size,
    weight: /\b(bold|[1-9]00)\b/.exec(before)?.[1] ?? 'normal',
    style: /\b(italic|oblique)\b/.exec(before)?.[1] ?? 'normal',
  };
};

interface State {
  stroke: Role;
  fill: Role;
  width: number;
  em: number;
}

/** What the engraver calls colours: its staff lines are grey, all else is ink. */
function roleOf(colour: string): Role {
  return colour.toLowerCase() === '#999999' ? 'line' : 'ink';
}

/** Draws what the engraver asks for as SVG text, its signs as outlines: no font, no document, no style sheet needed. */
export class OutlineContext extends RenderContext {
  private readonly parts: string[] = [];
  private d = '';
  private state: State = { stroke: 'ink', fill: 'ink', width: 1, em: 40 };
  private readonly states: State[] = [];

  get markup(): string {
    return this.parts.join('');
  }

  override add(markup: string): void {
    this.parts.push(markup);
  }
  override clear(): void {
    this.parts.length = 0;
  }

  override openGroup(): void {}
  override closeGroup(): void {}
  override openRotation(): void {}
  override closeRotation(): void {}
  override resize(): this {
    return this;
  }
  override scale(): this {
    return this;
  }
  override setBackgroundFillStyle(): this {
    return this;
  }
  override setShadowColor(): this {
    return this;
  }
  override setShadowBlur(): this {
    return this;
  }
  override setLineCap(): this {
    return this;
  }
  override setLineDash(): this {
    return this;
  }
  override clearRect(): this {
    return this;
  }
  override pointerRect(): this {
    return this;
  }

  override setFillStyle(style: string): this {
    this.state.fill = roleOf(style);
    return this;
  }
  override setStrokeStyle(style: string): this {
    this.state.stroke = roleOf(style);
    return this;
  }
  override set fillStyle(style: string) {
    this.setFillStyle(style);
  }
  override get fillStyle(): string {
    return this.state.fill;
  }
  override set strokeStyle(style: string) {
    this.setStrokeStyle(style);
  }
  override get strokeStyle(): string {
    return this.state.stroke;
  }
  override setLineWidth(width: number): this {
    this.state.width = width;
    return this;
  }
  override setFont(font?: string | FontInfo, size?: string | number): this {
    this.state.em = pixels(typeof font === 'object' ? font.size : size);
    return this;
  }
  override getFont(): string {
    return `${this.state.em}px`;
  }
  override save(): this {
    this.states.push({ ...this.state });
    return this;
  }
  override restore(): this {
    this.state = this.states.pop() ?? this.state;
    return this;
  }

  override beginPath(): this {
    this.d = '';
    return this;
  }
  override moveTo(x: number, y: number): this {
    this.d += `M${num(x)} ${num(y)}`;
    return this;
  }
  override lineTo(x: number, y: number): this {
    this.d += `L${num(x)} ${num(y)}`;
    return this;
  }
  override bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): this {
    this.d += `C${[ax, ay, bx, by, x, y].map(num).join(' ')}`;
    return this;
  }
  override quadraticCurveTo(ax: number, ay: number, x: number, y: number): this {
    this.d += `Q${[ax, ay, x, y].map(num).join(' ')}`;
    return this;
  }
  override rect(x: number, y: number, width: number, height: number): this {
    this.d += `M${num(x)} ${num(y)}h${num(width)}v${num(height)}h${num(-width)}Z`;
    return this;
  }
  override arc(x: number, y: number, radius: number): this {
    // Only whole dots are ever asked for.
    this.d += `M${num(x - radius)} ${num(y)}a${num(radius)} ${num(radius)} 0 1 0 ${num(2 * radius)} 0a${num(radius)} ${num(radius)} 0 1 0 ${num(-2 * radius)} 0`;
    return this;
  }
  override closePath(): this {
    this.d += 'Z';
    return this;
  }
  override fill(): this {
    const { fill } = this.state;
    this.add(tag('path', { class: `pw-fill-${fill}`, fill: LIGHT[fill], d: this.d }));
    return this;
  }
  override stroke(): this {
    const { stroke, width } = this.state;
    this.add(tag('path', { class: `pw-line-${stroke}`, fill: 'none', stroke: LIGHT[stroke], 'stroke-width': width, d: this.d }));
    return this;
  }
  override fillRect(x: number, y: number, width: number, height: number): this {
    return this.beginPath().rect(x, y, width, height).fill();
  }

  override measureText(text: string): TextMeasure {
    const { width, actualBoundingBoxAscent: up, actualBoundingBoxDescent: down } = measuredText(text, this.state.em);
    return { x: 0, y: -up, width, height: up + down };
  }
  override fillText(text: string, x: number, y: number): this {
    let at = x;
    for (const character of text) {
      if (isSign(character)) this.add(sign(character.codePointAt(0) as number, at, y, this.state.em, this.state.fill));
      else if (character !== ' ') {
        const look = { class: `pw-fill-${this.state.fill}`, fill: LIGHT[this.state.fill], 'font-size': this.state.em };
        this.add(tag('text', { x: at, y, ...look }, escaped(character)));
      }
      at += measuredText(character, this.state.em).width;
    }
    return this;
  }
}

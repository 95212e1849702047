import { OUTLINES } from '../../server/scene/staff/outlines';
import { attribute, elements } from './markup';

/** Where a sign is drawn, in px. */
export function places(svg: string, code: number): readonly { readonly x: number; readonly y: number }[] {
  return elements(svg, 'path', 'd', OUTLINES.get(code)!.d).map((path) => {
    const [, x = '', y = ''] = /translate\((\S+) (\S+)\)/.exec(attribute(path, 'transform')) ?? [];
    return { x: Number(x), y: Number(y) };
  });
}

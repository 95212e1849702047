import { later } from '../../server/l10n/translate';
/** What a key does while the staff, the board or nothing in particular has the keyboard. */
export type KeyAction =
  | { readonly kind: 'step'; readonly by: number; readonly extend: boolean }
  | { readonly kind: 'edge'; readonly to: 'first' | 'last'; readonly extend: boolean }
  | {
      readonly kind:
        | 'play'
        | 'text'
        | 'loop'
        | 'click'
        | 'countIn'
        | 'slower'
        | 'faster'
        | 'choices'
        | 'wholeString'
        | 'bar'
        | 'smaller'
        | 'larger';
    };

/** Shown in the panel, in this order. */
export const KEYS: readonly (readonly [keys: string, does: string])[] = [
  ['← →', later('previous, next note')],
  [later('Shift ← →'), later('choose several notes to repeat')],
  [later('Home, End'), later('first, last note')],
  [later('Space'), later('play or pause')],
  ['R', later('repeat the chosen notes')],
  ['- +', later('slower, faster')],
  ['K', later('click')],
  ['C', later('count in')],
  ['A', later('go to the other ways to play it')],
  ['W', later('show the whole string')],
  ['B', later('go to a bar')],
  ['S L', later('smaller, larger notes')],
  [later('Enter'), later('go to the note in the text')],
];

interface Key {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}

const PLAIN: Readonly<Record<string, KeyAction>> = {
  ' ': { kind: 'play' },
  Enter: { kind: 'text' },
  r: { kind: 'loop' },
  k: { kind: 'click' },
  c: { kind: 'countIn' },
  '-': { kind: 'slower' },
  '−': { kind: 'slower' },
  '+': { kind: 'faster' },
  '=': { kind: 'faster' },
  a: { kind: 'choices' },
  w: { kind: 'wholeString' },
  b: { kind: 'bar' },
  s: { kind: 'smaller' },
  l: { kind: 'larger' },
};

/** The action of a key, or undefined for one that is not ours: anything with Ctrl, Alt or Command belongs to the editor. */
export function actionOf({ key, shiftKey, ctrlKey, altKey, metaKey }: Key): KeyAction | undefined {
  if (ctrlKey || altKey || metaKey) return undefined;
  if (key === 'ArrowLeft' || key === 'ArrowRight') return { kind: 'step', by: key === 'ArrowLeft' ? -1 : 1, extend: shiftKey };
  if (key === 'Home' || key === 'End') return { kind: 'edge', to: key === 'Home' ? 'first' : 'last', extend: shiftKey };
  return PLAIN[key.length === 1 ? key.toLowerCase() : key];
}

/** True where a key belongs to what has the keyboard: a field that is written in, a button that it presses. */
export function belongsTo(target: EventTarget | null, key: string): boolean {
  if (!(target instanceof Element)) return false;
  if (target.closest('input, select, textarea') !== null) return true;
  return (key === ' ' || key === 'Enter') && target.closest('button, summary, a') !== null;
}

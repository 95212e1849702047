import { oneOf } from '../../grammar/problems';
import type { PitchNode } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { type Pitch, pitchName, spell, transposed } from '../music/pitch';
import type { Asked, Setup } from '../passage/passage';
import { intervalWords, printedPitch } from '../scene/words';
import type { Way } from '../solver/way';
import { waysOf } from '../solver/ways';
import type { Offer } from './completion';

/** White keys and semitones from the stopping to the touching finger, the commonest first. */
const TOUCHES: readonly (readonly [name: string, steps: number, semitones: number])[] = [
  ['fourth', 3, 5],
  ['fifth', 4, 7],
  ['third', 2, 4],
  ['minor-third', 2, 3],
  ['octave', 7, 12],
  ['sixth', 5, 9],
];
/** Piano keys between which a lone diamond may be touched: C2 to C8. */
const LOWEST = 36;
const HIGHEST = 108;

/** The places that can be touched after a diamond, with what sounds there. */
export function touchOffers(setup: Setup, stop: PitchNode | undefined): readonly Offer[] {
  return stop ? artificialTouches(setup, stop) : naturalTouches(setup);
}

function artificialTouches(setup: Setup, stop: Pitch): readonly Offer[] {
  return TOUCHES.flatMap(([name, steps, semitones]): Offer[] => {
    const touch = transposed(stop, steps, semitones);
    const sounds = soundsOf({ kind: 'artificial', stop, touch }, setup);
    return sounds.length === 0
      ? []
      : [
          {
            label: pitchName(touch),
            kind: 'pitch',
            detail: touchDetail(name, oneOf(sounds.map(printedPitch))),
          },
        ];
  });
}

function touchDetail(name: string, sounds: string): string {
  const holes = { interval: intervalWords(name), sounds };
  return name === 'octave' ? t('An {interval} above: sounds {sounds}.', holes) : t('A {interval} above: sounds {sounds}.', holes);
}

const known = new WeakMap<Setup, readonly Offer[]>();

function naturalTouches(setup: Setup): readonly Offer[] {
  const offers =
    known.get(setup) ??
    Array.from({ length: HIGHEST - LOWEST + 1 }, (_, key) => spell(LOWEST + key)).flatMap((touch): Offer[] => {
      const ways = speaking({ kind: 'diamond', touch }, setup);
      const places = [
        ...new Set(
          ways.map((way) => t('{pitch} on {string}', { pitch: printedPitch(pitchName(way.sounding)), string: way.stringName })),
        ),
      ];
      return places.length === 0
        ? []
        : [{ label: pitchName(touch), kind: 'pitch', detail: t('Sounds {places}.', { places: places.join(', ') }) }];
    });
  known.set(setup, offers);
  return offers;
}

/** What a printed harmonic sounds. */
export function soundingOffers(setup: Setup, stop: PitchNode | undefined, touch: PitchNode): readonly Offer[] {
  const asked: Asked = stop ? { kind: 'artificial', stop, touch } : { kind: 'diamond', touch };
  return soundsOf(asked, setup).map((label) => ({ label, kind: 'pitch', detail: t('What this harmonic sounds.') }));
}

function soundsOf(asked: Asked, setup: Setup): readonly string[] {
  return [...new Set(speaking(asked, setup).map(({ sounding }) => pitchName(sounding)))];
}

/** The ways with room for the finger that touches, those of the lowest partials first: they speak most surely. */
function speaking(asked: Asked, setup: Setup): readonly Way[] {
  return waysOf({ asked, harmonic: 'must', pins: {} }, setup)
    .filter(({ tolerance }) => (tolerance ?? 0) > 0)
    .sort((a, b) => a.partial - b.partial);
}

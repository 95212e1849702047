import { later, t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { centsWords, fingerWords, mmWords, printedPitch } from '../scene/words';
import { type ReferenceHarmonic, referenceHarmonic } from '../solver/reference';
import type { Way } from '../solver/way';
import { drillBar, HALF, played, silence, WHOLE } from './drill';
import type { Exercise, Section } from './exercise';
import type { PracticeKind } from './kind';
import { asShape, onString } from './notes';
import { type Source, solvedEvents } from './source';

/** At most so many notes of a passage: the hand needs fixed points, not a catalogue. */
const NOTES = 4;

export const referenceDrill: PracticeKind = {
  name: 'reference-notes',
  label: later('Reference notes'),
  meaning: later('Stopped notes checked by ear against natural harmonics of the same pitch'),
  needs: later('a stopped note at the pitch of a natural harmonic'),
  exercises: drill,
};

interface Checked {
  readonly way: Way;
  readonly reference: ReferenceHarmonic;
}

function drill(source: Source): readonly Exercise[] {
  const { setup } = source.solution.passage;
  const seen = new Set<string>();
  const checked = solvedEvents(source)
    .flatMap(({ solved }) => solved.fingering.ways)
    .filter((way) => way.kind === 'stopped')
    .flatMap((way): Checked[] => {
      const reference = referenceHarmonic(way, setup);
      const key = `${way.stringName} ${pitchName(way.sounding)}`;
      if (!reference || seen.has(key)) return [];
      seen.add(key);
      return [{ way, reference }];
    })
    .slice(0, NOTES);
  if (checked.length === 0) return [];
  const [first, ...others] = checked.map(section);
  const why = t(
    'A natural harmonic is always in tune with its string, so it tells you where a stopped note belongs. Hear the harmonic, sing it, then stop the note; correct by rolling the finger, never by guessing again.',
  );
  return [
    {
      title: t('Reference notes'),
      rests: false,
      sections: [{ ...first!, instructions: [why, ...first!.instructions] }, ...others],
    },
  ];
}

function section({ way, reference }: Checked): Section {
  const { string, k, n } = reference;
  const name = printedPitch(pitchName(way.sounding));
  const harmonic = onString(way.sounding, true, `${string.name} natural at ${k}/${n}`);
  const stopped = asShape(way);
  return {
    instructions: [
      [
        t('{name}: the harmonic on {string} at {k}/{n} ({mm} from the nut), then the {finger} on {ownString}.', {
          name,
          string: string.name,
          k,
          n,
          mm: mmWords(reference.mm),
          finger: fingerWords(String(way.stop?.finger)),
          ownString: way.stringName,
        }),
        difference(reference.cents),
      ].join(' '),
    ],
    bars: [
      drillBar(played(HALF, harmonic), silence(HALF)),
      drillBar(played(HALF, stopped), silence(HALF)),
      drillBar(played(HALF, harmonic), played(HALF, stopped)),
      drillBar(played(WHOLE, stopped)),
    ],
  };
}

/** Fewer cents than this nobody minds in a stopped note. Assumption. */
const MINDED = 5;

function difference(cents: number): string {
  const apart = centsWords(cents);
  if (!apart) return t('Both are the same pitch.');
  if (Math.abs(cents) < MINDED) return t('The harmonic lies {apart} from the tempered note, too little to mind.', { apart });
  return cents > 0
    ? t('The harmonic lies {apart} from the tempered note: among tempered instruments stop it a shade lower.', { apart })
    : t('The harmonic lies {apart} from the tempered note: among tempered instruments stop it a shade higher.', { apart });
}

import { absolute, pathAt } from '../../grammar/at';
import type { Edit } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import type { NoteSpec } from '../passage/passage';
import type { Relaxation, Unplayable, UnplayableReason } from '../solver/solution';
import type { Finding, RatedFix, Subject, UnplayableRule } from './rule';
import { playAs, spotOf } from './spot';

type Kind = UnplayableReason['kind'];

/** A rule that reports one kind of event that can't be played. */
export function unplayableRule(
  code: string,
  kinds: readonly Kind[],
  tell: (subject: Subject, unplayable: Unplayable) => Finding | undefined,
): UnplayableRule {
  return {
    code,
    severity: 'error',
    on: 'unplayable',
    check(subject, unplayable) {
      const told = kinds.includes(unplayable.reason.kind) ? tell(subject, unplayable) : undefined;
      return told && [{ fixes: () => unplayable.relaxations.flatMap((one) => fixes(subject, unplayable, one)), ...told }];
    },
  };
}

function fixes(subject: Subject, { event }: Unplayable, relaxation: Relaxation): readonly RatedFix[] {
  switch (relaxation.kind) {
    case 'fingering':
      return playAs(subject, event, relaxation.fingering);
    case 'octaves':
      return rewritten(subject, event, relaxation.note, (note) =>
        octavesAway(note, relaxation.by, stoppedMark(subject, event, relaxation.note)),
      );
    case 'stopped':
      return rewritten(subject, event, relaxation.note, (note) => named(note, stoppedMark(subject, event, relaxation.note)));
    case 'harmonic':
      return rewritten(subject, event, relaxation.note, (note) => named(note, 'o'));
    case 'reach':
      return [];
  }
}

function octavesAway({ asked, harmonic }: NoteSpec, by: number, stopped: string): string | undefined {
  if (asked.kind !== 'sounding') return undefined;
  return `${pitchName({ ...asked.pitch, octave: asked.pitch.octave + by })}${{ must: 'o', may: '', no: stopped }[harmonic]}`;
}

function named({ asked }: NoteSpec, mark: string): string | undefined {
  return asked.kind === 'sounding' ? `${pitchName(asked.pitch)}${mark}` : undefined;
}

/** What tells that a note without its hints is stopped: a word where a plain pitch may mean a harmonic, under a `harmonics` setting or as this note shows. */
function stoppedMark({ tree, passage }: Subject, event: number, note: number): string {
  const { source, spec } = passage.events[event]!;
  const { form, hints } = source.notes[note]!;
  const written = pathAt(tree, tree.lines[source.line]!.start + form.start).note?.form;
  const circled = written?.kind === 'plain' && written.circle !== undefined;
  if (!hints && !circled) return spec.notes[note]!.harmonic === 'no' ? '' : ' [stopped]';
  return tree.lines.some(({ node }) => node.kind === 'setting' && node.key.text === 'harmonics') ? ' [stopped]' : '';
}

/** Writes a note another way, where it stands in the text itself. Its hints were for the note that it was. */
function rewritten(
  subject: Subject,
  event: number,
  note: number,
  text: (note: NoteSpec) => string | undefined,
): readonly RatedFix[] {
  const { spec, source } = subject.passage.events[event]!;
  const written = text(spec.notes[note]!);
  if (!written || source.definition) return [];
  const form = { span: spotOf(subject, event, note), text: written };
  const { hints } = source.notes[note]!;
  if (!hints) return [{ title: t('Write {written}', { written }), edits: [form] }];
  const { tree } = subject;
  const { start, end } = absolute(tree.lines[source.line]!, hints);
  const gap = tree.text.slice(form.span.end, start);
  const without: Edit = { span: { start: start - (gap.length - gap.trimEnd().length), end }, text: '' };
  // A plain pitch that its hints asked for as a harmonic is written as it was.
  const same = tree.text.slice(form.span.start, form.span.end) === written;
  const title = written.includes('[') ? t('Write {written}', { written }) : t('Write {written}, without its hints', { written });
  return [{ title, edits: same ? [without] : [form, without] }];
}

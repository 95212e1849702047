import { later, t } from '../../server/l10n/translate';
import type { Heard, HeardMark, HeardRun } from '../../server/protocol/heard';
import type { ScenePassage } from '../../server/protocol/scene';
import { drawPitchCurve } from '../../server/scene/heard/pitch-curve';
import { runToShow, VERDICTS } from '../../server/scene/heard/verdicts';
import { spokenPitch } from '../../server/scene/words';
import { button, element, showDrawing } from './element';
import { byEvent, type HeardEvents } from './heard-marks';
import type { HeardMessage, PanelMessage } from './messages';
import type { StaffView } from './staff-view';

/** A recording held against the passage: summary, pitch curve, every note in words, and the attempts to count. */
export class HeardView {
  readonly root = element('section', { class: 'heard', 'aria-labelledby': 'heard-title', hidden: true });
  private message: HeardMessage | undefined;
  private run = 0;
  private drawn = '';
  private events: HeardEvents = new Map();
  private readonly curve = element('div', { class: 'curve', tabindex: 0, role: 'group', 'aria-label': t('Pitch curve') });

  constructor(
    private readonly staff: StaffView,
    /** A person chose a note of the recording. */
    private readonly choose: (event: number) => void,
    private readonly send: (message: PanelMessage) => void,
  ) {
    this.curve.addEventListener('click', (click) => {
      const group = (click.target as Element).closest<SVGElement>('[data-event]');
      if (group) choose(Number(group.dataset.event));
    });
  }

  take(message: HeardMessage): void {
    this.message = message;
    this.run = runToShow(message.heard.runs);
    this.drawn = '';
  }

  /** What was heard of an event of the passage shown; nothing where the recording is of another, or of another text. */
  of(event: number): readonly HeardMark[] | undefined {
    return this.events.get(event);
  }

  /** Of passage `index` of a scene, and marks its staff. */
  show(version: number, index: number, passage: ScenePassage, width: number): void {
    const { message } = this;
    const fits = message?.version === version && message.passage === index;
    this.events = byEvent(fits ? this.shown : undefined);
    this.staff.showHeard(this.events);
    this.root.hidden = message?.passage !== index;
    const now = `${version} ${index} ${width} ${this.run}`;
    if (!message || this.root.hidden || width <= 0 || now === this.drawn) return;
    const first = this.drawn === '';
    this.drawn = now;
    const { heard, recording } = message;
    const again = () => {
      this.show(version, index, passage, width);
      this.choose(this.shown?.marks[0]?.event ?? 0);
      this.root.querySelector('select')?.focus();
    };
    this.root.replaceChildren(
      element('h2', { id: 'heard-title' }, t('Recording {recording}', { recording })),
      element('ul', { class: 'told' }, ...heard.summary.map((sentence) => element('li', {}, sentence))),
      ...(fits ? this.details(heard, passage, width, again) : [element('p', { class: 'quiet' }, t(STALE))]),
      ...this.counting(message),
    );
    if (first) this.root.scrollIntoView({ block: 'nearest' });
  }

  /** The notes of an event that is being looked at stand out in the curve. */
  mark(event: number): void {
    for (const group of this.curve.querySelectorAll<SVGElement>('[data-event]'))
      group.classList.toggle('pw-on', Number(group.dataset.event) === event);
  }

  private get shown(): HeardRun | undefined {
    return this.message?.heard.runs[this.run];
  }

  private details(heard: Heard, passage: ScenePassage, width: number, again: () => void): readonly HTMLElement[] {
    const run = this.shown;
    if (!run) return [];
    showDrawing(this.curve, drawPitchCurve(run, passage, width).svg);
    const words = element(
      'details',
      {},
      element('summary', {}, t('Every note of the recording in words')),
      element('ol', { class: 'notes' }, ...run.marks.map((mark) => this.line(mark, passage))),
    );
    return [...(heard.runs.length > 1 ? [this.chooser(heard, again)] : []), key(), this.curve, words];
  }

  /** @param again shows another run */
  private chooser({ runs }: Heard, again: () => void): HTMLElement {
    const select = element(
      'select',
      { 'aria-label': t('Which take') },
      ...runs.map(({ from, whole, marks }, i) =>
        element(
          'option',
          { value: i, selected: i === this.run },
          whole
            ? t('Whole take from {from} s', { from: from.toFixed(1) })
            : t('Part, {count} notes, from {from} s', { count: marks.length, from: from.toFixed(1) }),
        ),
      ),
    );
    select.addEventListener('change', () => {
      this.run = Number(select.value);
      again();
    });
    return select;
  }

  private line({ event, note, verdict, words }: HeardMark, { events }: ScenePassage): HTMLElement {
    const at = events[event];
    const pitch = spokenPitch(at?.notes[note]?.sounding ?? '');
    const label = t('{mark} Bar {bar}, beat {beat}, {pitch}: {words}', {
      mark: VERDICTS[verdict].mark,
      bar: at?.bar ?? '',
      beat: at?.beat ?? '',
      pitch,
      words,
    });
    return element(
      'li',
      {},
      button(label, {}, () => this.choose(event)),
    );
  }

  private counting({ counts, player }: HeardMessage): readonly HTMLElement[] {
    if (counts.length === 0) return [element('p', { class: 'quiet' }, t('Nothing in it is sure enough to count as an attempt.'))];
    const told = counts
      .map(({ attempt, clean, tried }) => t('{attempt}: {clean} of {tried} clean', { attempt, clean, tried }))
      .join(', ');
    if (!player) return [element('p', {}, t('Attempts: {told}. {advice}', { told, advice: t(NO_PLAYER) }))];
    return [
      element('p', {}, t('Attempts that are sure: {told}.', { told })),
      element(
        'p',
        { class: 'counting' },
        button(t('Count Them in {player}…', { player }), { title: t('Shows the change first') }, () =>
          this.send({ type: 'count', back: false }),
        ),
        button(t('Take Them Back…'), { title: t('Takes this recording out of {player}', { player }) }, () =>
          this.send({ type: 'count', back: true }),
        ),
      ),
    ];
  }
}

const STALE = later('The text has changed since this was listened to: listen again to see it on the staff and the board.');
const NO_PLAYER = later(
  'To count them, name a player file in the passage, for instance “player: ines.player”, and listen again.',
);

/** What the signs mean. */
function key(): HTMLElement {
  const all = Object.values(VERDICTS).map(({ mark, word }) => element('li', {}, `${mark} ${word}`));
  return element('ul', { class: 'legend', 'aria-label': t('Verdicts') }, ...all.reverse());
}

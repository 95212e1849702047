import type { Heard, HeardMark, HeardRun } from '../../server/protocol/heard';
import type { ScenePassage } from '../../server/protocol/scene';
import { drawPitchCurve } from '../../server/scene/heard/pitch-curve';
import { runToShow, VERDICTS } from '../../server/scene/heard/verdicts';
import { spokenPitch } from '../../server/scene/words';
import { button, element, showDrawing } from './element';
import { byEvent, type HeardEvents } from './heard-marks';
import type { HeardMessage } from './messages';

export interface HeardActions {
  /** A person chose a note of the recording. */
  choose(event: number): void;
  /** Another run is shown. */
  changed(): void;
  count(back: boolean): void;
}

/** A recording held against the passage: summary, pitch curve, every note in words, and the attempts to count. */
export class HeardView {
  readonly root = element('section', { class: 'heard', 'aria-labelledby': 'heard-title', hidden: true });
  private message: HeardMessage | undefined;
  private run = 0;
  private drawn = '';
  private readonly curve = element('div', { class: 'curve', tabindex: 0, role: 'group', 'aria-label': 'Pitch curve' });

  constructor(private readonly actions: HeardActions) {
    this.curve.addEventListener('click', (click) => {
      const group = (click.target as Element).closest<SVGElement>('[data-event]');
      if (group) actions.choose(Number(group.dataset.event));
    });
  }

  take(message: HeardMessage): void {
    this.message = message;
    this.run = runToShow(message.heard.runs);
    this.drawn = '';
  }

  /** What was heard of each event of a passage; nothing where the recording is of another, or of another text. */
  events(version: number, passage: number): HeardEvents {
    return byEvent(this.fits(version, passage) ? this.shown : undefined);
  }

  show(version: number, index: number, passage: ScenePassage, width: number): void {
    const { message } = this;
    this.root.hidden = message?.passage !== index;
    if (!message || this.root.hidden || width <= 0) return;
    const fits = this.fits(version, index);
    const now = `${version} ${index} ${width} ${this.run}`;
    if (now === this.drawn) return;
    this.drawn = now;
    const { heard, recording } = message;
    this.root.replaceChildren(
      element('h2', { id: 'heard-title' }, `Recording ${recording}`),
      element('ul', { class: 'told' }, ...heard.summary.map((sentence) => element('li', {}, sentence))),
      ...(fits ? this.details(heard, passage, width) : [element('p', { class: 'quiet' }, STALE)]),
      ...this.counting(message),
    );
  }

  /** The notes of an event that is being looked at stand out in the curve. */
  mark(event: number): void {
    for (const group of this.curve.querySelectorAll<SVGElement>('[data-event]'))
      group.classList.toggle('pw-on', Number(group.dataset.event) === event);
  }

  private get shown(): HeardRun | undefined {
    return this.message?.heard.runs[this.run];
  }

  private fits(version: number, passage: number): boolean {
    return this.message?.version === version && this.message.passage === passage;
  }

  private details(heard: Heard, passage: ScenePassage, width: number): readonly HTMLElement[] {
    const run = this.shown;
    if (!run) return [];
    showDrawing(this.curve, drawPitchCurve(run, passage, width).svg);
    const words = element(
      'details',
      {},
      element('summary', {}, 'Every note of the recording in words'),
      element('ol', { class: 'notes' }, ...run.marks.map((mark) => this.line(mark, passage))),
    );
    return [...(heard.runs.length > 1 ? [this.chooser(heard)] : []), key(), this.curve, words];
  }

  private chooser({ runs }: Heard): HTMLElement {
    const select = element(
      'select',
      { 'aria-label': 'Which take' },
      ...runs.map(({ from, whole, marks }, i) =>
        element(
          'option',
          { value: i, selected: i === this.run },
          `${whole ? 'Whole take' : `Part, ${marks.length} notes,`} from ${from.toFixed(1)} s`,
        ),
      ),
    );
    select.addEventListener('change', () => {
      this.run = Number(select.value);
      this.actions.changed();
      this.root.querySelector('select')?.focus();
    });
    return select;
  }

  private line({ event, note, verdict, words }: HeardMark, { events }: ScenePassage): HTMLElement {
    const at = events[event];
    const pitch = spokenPitch(at?.notes[note]?.sounding ?? '');
    const label = `${VERDICTS[verdict].mark} Bar ${at?.bar}, beat ${at?.beat}, ${pitch}: ${words}`;
    return element(
      'li',
      {},
      button(label, {}, () => this.actions.choose(event)),
    );
  }

  private counting({ counts, player }: HeardMessage): readonly HTMLElement[] {
    if (counts.length === 0) return [element('p', { class: 'quiet' }, 'Nothing in it is sure enough to count as an attempt.')];
    const told = counts.map(({ attempt, clean, tried }) => `${attempt}: ${clean} of ${tried} clean`).join(', ');
    if (!player) return [element('p', {}, `Attempts: ${told}. ${NO_PLAYER}`)];
    return [
      element('p', {}, `Attempts that are sure: ${told}.`),
      element(
        'p',
        { class: 'counting' },
        button(`Count Them in ${player}…`, { title: 'Shows the change first' }, () => this.actions.count(false)),
        button('Take Them Back…', { title: `Takes this recording out of ${player}` }, () => this.actions.count(true)),
      ),
    ];
  }
}

const STALE = 'The text has changed since this was listened to: listen again to see it on the staff and the board.';
const NO_PLAYER = 'To count them, name a player file in the passage, for instance “player: ines.player”, and listen again.';

/** What the signs mean. */
function key(): HTMLElement {
  const all = Object.values(VERDICTS).map(({ mark, word }) => element('li', {}, `${mark} ${word}`));
  return element('ul', { class: 'legend', 'aria-label': 'Verdicts' }, ...all.reverse());
}

import { t } from '../../../server/l10n/translate';
import type { MeasureReply } from '../../../server/protocol/messages';
import { capital, fingerWords } from '../../../server/scene/words';
import { button, element, showDrawing } from '../element';
import type { MeasureHostMessage, MeasurePageMessage } from './messages';
import { pairPicture } from './pair-picture';
import { betweenSemitones, doubt, handLine, notesDoubt, type Reaches } from './reaches';

/** What the page keeps while it is hidden or loaded anew. */
export interface Kept {
  readonly reaches?: Reaches;
  readonly step?: number;
}

interface Host {
  send(message: MeasurePageMessage): void;
  keep(state: Kept): void;
}

/** Where the lower finger is set down for measuring by notes, in semitones above the open string: first position. */
const FIRST_POSITION = 2;

/** Takes a player through the pairs of fingers one by one, and has the line written. */
export class MeasureView {
  private readonly root = element('main', { class: 'panel measure' });
  private readonly news = element('p', { role: 'status', class: 'news' });
  private player: MeasureReply | undefined;
  private file = '';
  private reaches: Reaches;
  private step: number;

  constructor(
    body: HTMLElement,
    private readonly host: Host,
    { reaches = {}, step = 0 }: Kept,
  ) {
    this.reaches = reaches;
    this.step = step;
    body.append(this.root);
  }

  receive(message: MeasureHostMessage): void {
    switch (message.type) {
      case 'player':
        this.player = message.player;
        // What the file says already is measured again only where the player wants to.
        this.reaches = { ...message.player.reaches, ...this.reaches };
        this.file = message.file;
        this.show(false);
        break;
      case 'written':
        this.news.textContent = t('Written into {file}.', { file: message.file });
        break;
      case 'failed':
        this.news.textContent = message.message;
    }
  }

  private show(focus = true): void {
    const { player } = this;
    if (!player) return;
    this.news.textContent = '';
    const pair = player.pairs[this.step];
    this.root.replaceChildren(
      element('h1', {}, t('Measure my reach')),
      element(
        'p',
        { class: 'caution' },
        t(
          'Warm up first. Let the fingers open by themselves; never push, and never pull them apart with the other hand. Pain, pulling or numbness means stop: rest, and ask a teacher or a clinician. Skip what you are not sure of.',
        ),
      ),
      ...(pair === undefined ? this.summary(player) : this.pairStep(player, pair)),
      this.news,
    );
    if (focus) this.root.querySelector<HTMLElement>('h2')?.focus();
  }

  private pairStep(player: MeasureReply, pair: string): readonly HTMLElement[] {
    const [low = '', high = ''] = pair.split('-').map((finger) => fingerWords(finger));
    const known = this.reaches[pair];
    const mm = element('input', {
      type: 'number',
      id: 'mm',
      inputmode: 'decimal',
      min: player.least,
      max: player.most,
      step: 1,
      value: known,
      'aria-describedby': 'mm-wrong',
    });
    const wrong = element('p', { id: 'mm-wrong', class: 'wrong', role: 'alert' });
    const described = { 'aria-describedby': 'notes-wrong' };
    const lower = element('input', {
      type: 'number',
      id: 'lower',
      min: 1,
      max: 24,
      step: 1,
      value: FIRST_POSITION,
      ...described,
    });
    const higher = element('input', { type: 'number', id: 'higher', min: 2, max: 36, step: 1, ...described });
    const notesWrong = element('p', { id: 'notes-wrong', class: 'wrong', role: 'alert' });
    const byNotes = () => {
      const [from, to] = [lower.valueAsNumber, higher.valueAsNumber];
      const why = notesDoubt(from, to);
      if (why === undefined) {
        mm.value = String(Math.round(betweenSemitones(player.length, from, to)));
        this.news.textContent = t('{mm} mm between them on a string of {length} mm.', {
          mm: mm.value,
          length: Math.round(player.length),
        });
      }
      return why;
    };
    // Told when the field is left, since half a number looks wrong; taken away as soon as it is right.
    const checkNotes = (event: Event) => {
      const why = higher.value === '' ? undefined : byNotes();
      if (why !== undefined && event.type !== 'change') return;
      notesWrong.textContent = why ?? '';
      for (const input of [lower, higher]) input.setAttribute('aria-invalid', String(why !== undefined));
    };
    for (const input of [lower, higher]) for (const type of ['input', 'change']) input.addEventListener(type, checkNotes);
    const next = () => {
      const reach = mm.value === '' ? undefined : mm.valueAsNumber;
      const why = this.keepPair(player, pair, reach);
      if (why === undefined) return;
      wrong.textContent = why;
      mm.setAttribute('aria-invalid', 'true');
      mm.focus();
    };
    const picture = element('div', { class: 'pair' });
    showDrawing(picture, pairPicture(pair));
    const form = element(
      'form',
      {},
      element(
        'fieldset',
        {},
        element('legend', {}, t('With a ruler')),
        element(
          'p',
          {},
          t(
            'Put the {low} on a string, leave it there, and let the {high} open as far as it goes without strain. Measure along the string from the middle of one fingertip to the middle of the other.',
            { low, high },
          ),
        ),
        element('label', { for: 'mm' }, t('Millimetres between the fingertips')),
        mm,
        wrong,
      ),
      element(
        'fieldset',
        {},
        element('legend', {}, t('Or by the notes you reach')),
        element(
          'p',
          {},
          t(
            'On your {instrument}: how many semitones above the open string is each finger? The second number is the highest that the {high} reaches in tune without strain.',
            { instrument: player.instrument, high },
          ),
        ),
        element(
          'label',
          { for: 'lower' },
          pair.startsWith('T') ? capital(low) : t('{finger}, semitones', { finger: capital(low) }),
        ),
        lower,
        element('label', { for: 'higher' }, t('{finger}, semitones', { finger: capital(high) })),
        higher,
        notesWrong,
      ),
      element(
        'p',
        { class: 'transport' },
        button(t('Back'), { disabled: this.step === 0 }, () => this.go(-1)),
        element('button', { type: 'submit', class: 'play' }, t('Next')),
        button(known === undefined ? t('Skip this pair') : t('Keep {known} mm', { known }), {}, () => this.go(1)),
      ),
    );
    form.noValidate = true;
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      next();
    });
    const title = t('{step} of {pairs}: {low} and {high}', { step: this.step + 1, pairs: player.pairs.length, low, high });
    return [element('h2', { tabindex: -1 }, title), picture, form];
  }

  /** Why it can't be kept; undefined where it is. An empty field takes a reach away. */
  private keepPair(player: MeasureReply, pair: string, mm: number | undefined): string | undefined {
    const { [pair]: _, ...others } = this.reaches;
    const wrong = mm === undefined ? undefined : doubt(pair, mm, others, player);
    if (wrong !== undefined) return wrong;
    this.reaches = mm === undefined ? others : { ...others, [pair]: mm };
    this.go(1);
    return undefined;
  }

  private go(by: number): void {
    this.step = Math.max(0, this.step + by);
    this.host.keep({ reaches: this.reaches, step: this.step });
    this.show();
  }

  private summary(player: MeasureReply): readonly HTMLElement[] {
    const hand = handLine(player.pairs, this.reaches);
    const rows = player.pairs.map((pair) =>
      element(
        'tr',
        {},
        element('th', { scope: 'row' }, pair),
        element('td', {}, this.reaches[pair] === undefined ? t('not measured') : `${this.reaches[pair]} mm`),
      ),
    );
    return [
      element('h2', { tabindex: -1 }, t('What was measured')),
      element('table', {}, element('caption', {}, t('The most that each pair opens')), element('tbody', {}, ...rows)),
      element(
        'p',
        {},
        hand === ''
          ? t('Nothing was measured, so there is nothing to write.')
          : [
              t('This writes the line “hand: {hand}”.', { hand }),
              ...(player.hand === '' ? [] : [t('It replaces: {hand}.', { hand: player.hand })]),
              t('Pairs that were not measured are worked out from the others.'),
            ].join(' '),
      ),
      element(
        'p',
        { class: 'transport' },
        button(t('Back'), {}, () => this.go(-1)),
        button(t('Write into {file}', { file: this.file }), { class: 'play', disabled: hand === '' }, () =>
          this.host.send({ type: 'write', hand }),
        ),
      ),
    ];
  }
}

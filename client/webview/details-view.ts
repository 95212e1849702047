import { later, t } from '../../server/l10n/translate';
import type { HeardMark } from '../../server/protocol/heard';
import type { SceneAlternative, SceneEvent, ScenePassage } from '../../server/protocol/scene';
import { legend } from '../../server/scene/board/legend';
import { mannerLabel, spokenPitch } from '../../server/scene/words';
import { button, element, showDrawing } from './element';

export interface DetailsActions {
  /** Hold this fingering against the chosen one on the board, or none. */
  compare(other: SceneAlternative | undefined): void;
  choose(other: SceneAlternative): void;
}

/** What the drawing can't say: the account in words, the other fingerings, what makes it hard, what the marks mean. */
export class DetailsView {
  readonly account = element('p', { id: 'account', class: 'account', 'aria-live': 'polite' });
  readonly choices = element('section', { class: 'choices', 'aria-labelledby': 'choices-title' });
  readonly legend = element('ul', { class: 'legend', 'aria-label': t('What the marks mean') });
  readonly all = element('details', { class: 'all' }, element('summary', {}, t('Every note in words')));
  private passage: ScenePassage | undefined;
  /** What the list of other ways was made of. */
  private listed: { readonly event: SceneEvent; readonly alternatives: readonly SceneAlternative[] | undefined } | undefined;
  /** Whether someone wants to see what notes cost: kept from note to note. */
  private costs = false;

  constructor(private readonly actions: DetailsActions) {
    this.all.addEventListener('toggle', () => this.fillAll());
  }

  /**
   * @param alternatives undefined while they are being asked for
   * @param heard what a recording holds of the event
   */
  show(
    passage: ScenePassage,
    event: SceneEvent,
    alternatives: readonly SceneAlternative[] | undefined,
    heard: readonly HeardMark[] = [],
  ): void {
    const told = heard.map(({ note, words }) =>
      heard.length > 1 ? `${spokenPitch(event.notes[note]?.sounding ?? '')} ${words}` : words,
    );
    this.account.textContent =
      told.length > 0
        ? t('{account} In the recording: {told}.', { account: event.account, told: told.join('; ') })
        : event.account;
    this.showChoices(event, alternatives);
    if (passage === this.passage) return;
    this.passage = passage;
    this.fillAll();
    this.legend.replaceChildren(
      ...legend(passage.board).map(({ svg, words }) => {
        const mark = element('span');
        showDrawing(mark, svg);
        return element('li', {}, mark, words);
      }),
    );
  }

  /** Silent while music plays: a voice over every note would drown it. */
  speak(aloud: boolean): void {
    this.account.setAttribute('aria-live', aloud ? 'polite' : 'off');
  }

  private showChoices(event: SceneEvent, alternatives: readonly SceneAlternative[] | undefined): void {
    // Made anew, it would take the keyboard off the way that is being looked at.
    if (this.listed?.event === event && this.listed.alternatives === alternatives) return;
    this.listed = { event, alternatives };
    const held = this.choices.contains(document.activeElement);
    const { compare, choose } = this.actions;
    const chosen = event.notes.map(mannerLabel).join(' + ');
    const others = (alternatives ?? []).filter(({ label }) => label !== chosen);
    const dearest = Math.max(0.01, ...others.map(({ extraCost }) => extraCost));
    const items = others.map((other) => {
      const title = t('Writes this fingering into the text; it costs the passage {cost} more', {
        cost: other.extraCost.toFixed(2),
      });
      const press = button('', { class: 'choice', title }, () => choose(other));
      const cost = element('span', { class: 'cost' }, `+${other.extraCost.toFixed(2)}`);
      press.append(element('span', { class: 'way' }, other.label), bar(other.extraCost / dearest), cost);
      for (const start of ['pointerenter', 'focus']) press.addEventListener(start, () => compare(other));
      for (const end of ['pointerleave', 'blur']) press.addEventListener(end, () => compare(undefined));
      return element('li', {}, press);
    });
    const why = event.terms.map(({ meaning, nats }) =>
      element('li', {}, element('span', { class: 'cost' }, nats.toFixed(2)), ` ${meaning}`),
    );
    this.choices.replaceChildren(
      element('h2', { id: 'choices-title' }, t('Other ways to play it')),
      chosen ? element('p', { class: 'chosen' }, t('Now: {chosen}', { chosen })) : '',
      items.length > 0
        ? element('ul', { class: 'ways' }, ...items)
        : element('p', { class: 'quiet' }, alternatives ? t(NO_OTHER) : '…'),
      why.length > 0 ? this.costList(why) : '',
    );
    if (held) this.choices.querySelector<HTMLElement>('button, summary')?.focus();
  }

  private costList(terms: readonly HTMLElement[]): HTMLElement {
    const list = element('ul', { class: 'terms' }, ...terms);
    const folded = element('details', { open: this.costs }, element('summary', {}, t('What it costs')), list);
    folded.addEventListener('toggle', () => {
      this.costs = folded.open;
    });
    return folded;
  }

  /** Written only when someone opens it. */
  private fillAll(): void {
    this.all.querySelector('ol')?.remove();
    if (!this.all.open || !this.passage) return;
    this.all.append(element('ol', {}, ...this.passage.events.map(({ account }) => element('li', {}, account))));
  }
}

const NO_OTHER = later('No other way is possible here with these hints and this hand.');

/** How dear, against the dearest of the list. Its width is a presentation attribute: the policy lets no style through. */
function bar(share: number): HTMLElement {
  const box = element('span', { class: 'dear', 'aria-hidden': 'true' });
  showDrawing(
    box,
    `<svg width="60" height="8"><rect class="pw-fill-warn" width="${Math.max(2, share * 60).toFixed(1)}" height="8" rx="2"/></svg>`,
  );
  return box;
}

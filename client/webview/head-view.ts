import { t } from '../../server/l10n/translate';
import type { Scene, ScenePassage } from '../../server/protocol/scene';
import { button, element } from './element';

/** Which passage is shown, what it is played on, where it is hardest, what to beware of. */
export class HeadView {
  private readonly title = element('h1');
  private readonly picker = element('select', { 'aria-label': t('Passage') });
  private readonly facts = element('span', { class: 'facts' });
  private readonly hardest: HTMLButtonElement;
  private readonly caution = element('p', { class: 'caution', hidden: true });
  readonly root: HTMLElement;

  constructor(actions: { open(passage: number): void; goToHardest(): void }) {
    this.picker.addEventListener('change', () => actions.open(Number(this.picker.value)));
    this.hardest = button('', { class: 'hardest' }, () => actions.goToHardest());
    const line = element('div', { class: 'head' }, this.title, this.picker, this.facts, this.hardest);
    this.root = element('header', {}, line, this.caution);
  }

  show(scene: Scene, shown: number, passage: ScenePassage): void {
    const several = scene.passages.length > 1;
    this.title.textContent = passage.title || t('Passage');
    // The picker shows the title already; who can't see it still finds the heading.
    this.title.classList.toggle('unseen', several);
    this.picker.hidden = !several;
    this.picker.replaceChildren(
      ...scene.passages.map(({ title, events }, index) =>
        element(
          'option',
          { value: index, selected: index === shown, disabled: events.length === 0 },
          title || t('Passage {number}', { number: index + 1 }),
        ),
      ),
    );
    this.facts.textContent = t('{instrument} · {hand} hand · {run}', {
      instrument: passage.board.name,
      hand: passage.hand,
      run: passage.run,
    });
    const hardest = passage.events[passage.hardest];
    this.hardest.textContent = hardest ? t('Hardest: bar {bar}, beat {beat}', { bar: hardest.bar, beat: hardest.beat }) : '';
    this.hardest.hidden = hardest === undefined;
    this.caution.textContent = passage.caution ?? '';
    this.caution.hidden = passage.caution === undefined;
  }
}

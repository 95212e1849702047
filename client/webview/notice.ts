import { t } from '../../server/l10n/translate';
import { element } from './element';

/** What is said beside the views while something is worked on, and what stands in their place where there is nothing to show. */
export class Notice {
  readonly working = element('p', { class: 'working', role: 'status' });
  readonly message = element('p', { class: 'message', role: 'status' });

  /** `share` done, 0 to 1, where it is known; no text ends it. */
  showWorking(text?: string, share?: number): void {
    const bar = share === undefined ? '' : element('progress', { max: 1, value: share, 'aria-label': text ?? t('Working') });
    this.working.replaceChildren(text ?? '', bar);
  }

  /** In place of the views, until they are back. */
  showInstead(text: string): void {
    this.showWorking();
    this.message.textContent = text;
    this.message.hidden = false;
  }

  clear(): void {
    this.showWorking();
    this.message.hidden = true;
  }
}

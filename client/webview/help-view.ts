import { t } from '../../server/l10n/translate';
import { button, element } from './element';
import { KEYS } from './keys';
import type { ExportFormat, ViewName } from './messages';

/** What the keys do, folded away until asked for. */
export function keysHelp(): HTMLElement {
  const rows = KEYS.flatMap(([keys, does]) => [element('dt', {}, element('kbd', {}, t(keys))), element('dd', {}, t(does))]);
  return element('details', {}, element('summary', {}, t('Keys')), element('dl', { class: 'keys' }, ...rows));
}

/** Buttons that save a view as a file. */
export function pictureButtons(save: (view: ViewName, format: ExportFormat) => void): HTMLElement {
  const of = (label: string, view: ViewName, format: ExportFormat) => button(label, {}, () => save(view, format));
  const buttons = [
    of(t('Fingerboard as SVG'), 'board', 'svg'),
    of(t('Fingerboard as PNG'), 'board', 'png'),
    of(t('Staff as SVG'), 'staff', 'svg'),
    of(t('Staff as PNG'), 'staff', 'png'),
  ];
  return element('details', {}, element('summary', {}, t('Save a picture')), element('div', { class: 'transport' }, ...buttons));
}

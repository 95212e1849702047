import { t } from '../../l10n/translate';
import type { Losses } from '../score/losses';
import { oneLine } from '../score/score';
import { attribute, child, children, type Element, textOf } from './element';
import { spoken } from './note';

/** What the bar lines of a measure say. */
export interface ReadBars {
  repeatBefore: boolean;
  repeatAfter: boolean;
  doubleAfter: boolean;
  ending?: string;
  endingAfter?: true;
}

/** Takes what a bar line says into `bars`. */
export function readBarline(barline: Element, bars: ReadBars, measure: string, losses: Losses): void {
  const place = attribute(barline, 'location') ?? 'right';
  const style = textOf(barline, 'bar-style');
  const repeat = child(barline, 'repeat');
  if (repeat) {
    if (attribute(repeat, 'direction') === 'forward') bars.repeatBefore = true;
    else bars.repeatAfter = true;
    const times = attribute(repeat, 'times');
    const last = Math.max(1, ...children(barline, 'ending').flatMap((ending) => timesOf(ending)));
    // An ending of several times says by itself how often its repeat is played.
    if (times !== undefined && Number(times) !== last + 1)
      losses.changed(
        measure,
        t('a repeat of more than two times, written as a plain one'),
        t('{times} times', { times: oneLine(times) }),
      );
  } else if (place === 'right' && /^(?:light-light|light-heavy|heavy-light|heavy-heavy|heavy)$/.test(style ?? ''))
    bars.doubleAfter = true;
  for (const mark of barline.children) {
    if (mark.name === 'ending') {
      const times = timesOf(mark).join(', ');
      if (attribute(mark, 'type') === 'start') bars.ending = times || '1';
      else if (!repeat) bars.endingAfter = true;
    } else if (mark.name === 'fermata') {
      losses.leftOut(measure, t('a fermata over a bar line'));
    } else if (!['bar-style', 'repeat', 'ending', 'footnote', 'level'].includes(mark.name)) {
      losses.leftOut(measure, t('the mark “{name}” on a bar line', { name: spoken(mark.name) }));
    }
  }
}

function timesOf(ending: Element): readonly number[] {
  return [...new Set(attribute(ending, 'number')?.match(/[1-9]/g) ?? [])].map(Number);
}

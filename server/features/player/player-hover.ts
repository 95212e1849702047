import { playerKey } from '../../../grammar/player-keys';
import { PRIOR_ATTEMPTS } from '../../hand/attempts';
import { t } from '../../l10n/translate';
import { triedKey, triedWords } from '../../player/attempt-words';
import type { PlayerFile } from '../../player/player-file';
import type { Hover } from '../hover';
import { mannerMeaning } from './manner-meaning';

/** What a key stands for, and what a record of attempts comes to. */
export function playerHover({ lines, experience }: PlayerFile, offset: number): Hover | undefined {
  const line = lines.find(({ start, end }) => start <= offset && offset <= end);
  const { key, value, attempt } = line ?? {};
  if (!key || !value || offset < key.start || offset > Math.max(key.end, value.end)) return undefined;
  const span = { start: key.start, end: Math.max(key.end, value.end) };
  if (attempt) {
    const all = experience[triedKey(attempt.tried)] ?? attempt.attempts;
    const words = triedWords(attempt.tried);
    return {
      span,
      markdown: [
        `**${words}** ${mannerMeaning(attempt.tried)}`,
        t(
          'In all, {clean} of {tried} clean. The model’s own estimate counts as much as {prior} attempts; hover over a note of a passage to see the two combined.',
          { clean: all.clean, tried: all.tried, prior: PRIOR_ATTEMPTS },
        ),
      ].join('\n\n'),
    };
  }
  const row = playerKey(key.text);
  return row && { span, markdown: `**${row.key}** ${t(row.meaning)}\n\n\`${row.key}: ${row.example}\`` };
}

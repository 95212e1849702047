import type { Span } from '../../../grammar/tree';
import { t } from '../../l10n/translate';
import { triedWords } from '../../player/attempt-words';
import type { PlayerFile } from '../../player/player-file';
import type { LogParams } from '../../protocol/messages';

/** A place to count one more attempt, above its line. */
export interface AttemptLens {
  readonly span: Span;
  readonly title: string;
  readonly log: Pick<LogParams, 'attempt' | 'clean'>;
}

/** Two above every line of attempts: the last one came out clean, or not. */
export function attemptLenses({ lines }: PlayerFile): readonly AttemptLens[] {
  return lines.flatMap(({ attempt, start }) => {
    if (!attempt) return [];
    const words = triedWords(attempt.tried);
    const { clean, tried } = attempt.attempts;
    const lens = (one: boolean): AttemptLens => ({
      span: { start, end: start },
      title: one
        ? t('clean: {clean} of {tried}', { clean: clean + 1, tried: tried + 1 })
        : t('not clean: {clean} of {tried}', { clean, tried: tried + 1 }),
      log: { attempt: words, clean: one },
    });
    return [lens(true), lens(false)];
  });
}

/** What a line of attempts tells of, in a player file's own words. */
export function attemptOn({ lines }: PlayerFile, offset: number): string | undefined {
  const line = lines.find(({ start, end }) => start <= offset && offset <= end);
  return line?.attempt && triedWords(line.attempt.tried);
}

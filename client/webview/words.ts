import { speak } from '../../server/l10n/translate';

/** The page holds the words of the reader's language, where the extension has them (`client/preview/page.ts`). */
export function speakAsThePage(): void {
  const words = document.getElementById('words')?.textContent;
  speak(words ? JSON.parse(words) : undefined);
}

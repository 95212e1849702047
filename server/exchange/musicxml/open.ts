import { t } from '../../l10n/translate';
import { Unreadable } from '../unreadable';
import { isArchive, scoreOfArchive } from './archive';
import { type Element, parseXml } from './element';
import { decodeXml } from './encoding';
import { LIMITS } from './limits';

/**
 * The root element of a score: of a .musicxml or .xml file's bytes or text, or of an .mxl file's bytes.
 *
 * @throws Unreadable
 */
export function openScore(source: Uint8Array | string): Element {
  if (source.length > LIMITS.fileBytes) {
    throw new Unreadable(
      t('The file is larger than {most} MB, too large to read at once. Export only the part you need.', {
        most: LIMITS.fileBytes / 2 ** 20,
      }),
    );
  }
  if (source.length === 0) throw new Unreadable(t('The file is empty. Export the score again.'));
  const text =
    typeof source === 'string' ? source.replace(/^\uFEFF/, '') : decodeXml(isArchive(source) ? scoreOfArchive(source) : source);
  const root = parseXml(text);
  if (root.name !== 'score-partwise' && root.name !== 'score-timewise') {
    throw new Unreadable(
      t('This is XML, but not a MusicXML score: its outermost element is <{root}>, not <score-partwise> or <score-timewise>.', {
        root: root.name,
      }),
    );
  }
  return root;
}

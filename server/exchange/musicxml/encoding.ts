import { t } from '../../l10n/translate';
import { Unreadable } from '../unreadable';

/**
 * The text of an XML file, decoded as XML 1.0 (appendix F) asks: by byte order mark, by the zero
 * bytes of UTF-16, else by the encoding the XML declaration names, else UTF-8.
 *
 * @throws Unreadable where the encoding is unknown or the bytes don't fit it.
 */
export function decodeXml(bytes: Uint8Array): string {
  const encoding = encodingOf(bytes);
  let decoder: TextDecoder;
  try {
    decoder = new TextDecoder(encoding, { fatal: true });
  } catch {
    throw new Unreadable(
      t("The file says that it is encoded as “{encoding}”, which can't be read here. Save it again as UTF-8 and import that.", {
        encoding,
      }),
    );
  }
  let text: string;
  try {
    text = decoder.decode(bytes);
  } catch {
    throw new Unreadable(
      t(
        "The file's bytes are not valid {encoding}, so its encoding is not what it says, or it is damaged. Export it again from the program that made it, as UTF-8.",
        { encoding: encoding.toUpperCase() },
      ),
    );
  }
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}

function encodingOf(bytes: Uint8Array): string {
  const [a, b, c, d] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'utf-8';
  if ((a === 0xff && b === 0xfe && c === 0 && d === 0) || (a === 0 && b === 0 && c === 0xfe && d === 0xff)) return 'utf-32';
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  if (a === 0x3c && b === 0 && d === 0) return 'utf-16le';
  if (a === 0 && b === 0x3c && c === 0) return 'utf-16be';
  const head = String.fromCharCode(...bytes.subarray(0, 256));
  const named = /^\s*<\?xml[^>]*?\sencoding\s*=\s*["']([^"']*)["']/.exec(head)?.[1]?.trim().toLowerCase();
  // A declaration that could be read byte by byte can't be in UTF-16, whatever it says of itself.
  return named === undefined || named.startsWith('utf-16') || named.startsWith('ucs-2') ? 'utf-8' : named;
}

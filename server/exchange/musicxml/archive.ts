import { Unzip, UnzipInflate } from 'fflate';
import { t } from '../../l10n/translate';
import { Unreadable } from '../unreadable';
import { attribute, type Element, parseXml } from './element';
import { decodeXml } from './encoding';
import { LIMITS } from './limits';

const CONTAINER = 'META-INF/container.xml';
/** Deflate grows its input 1032 times at most, so this bounds what one step can unpack before it is counted. */
const STEP = 2 ** 14;

/** True for the first bytes of a ZIP file, which an .mxl file is. */
export function isArchive(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;
}

/**
 * The score inside an .mxl file: the entry that its META-INF/container.xml names first. Nothing but
 * these two entries is unpacked, and never more than LIMITS allow, whatever sizes the file claims.
 *
 * @throws Unreadable
 */
export function scoreOfArchive(bytes: Uint8Array): Uint8Array {
  const container = unpack(bytes, CONTAINER);
  if (!container) {
    throw new Unreadable(
      t('This ZIP file is not an .mxl score: it has no {entry}. Unpack it and import the .musicxml file in it.', {
        entry: CONTAINER,
      }),
    );
  }
  const path = rootFile(parseXml(decodeXml(container)));
  const score = unpack(bytes, path);
  if (!score) {
    throw new Unreadable(t('The .mxl file says that its score is “{path}”, but holds no such entry. Export it again.', { path }));
  }
  return score;
}

function rootFile(container: Element): string {
  const files = container.children.flatMap((c) =>
    c.name === 'rootfiles' ? c.children.filter((f) => f.name === 'rootfile') : [],
  );
  const path = files.map((f) => attribute(f, 'full-path')).find((p) => p !== undefined && p !== '');
  if (path === undefined)
    throw new Unreadable(t("The .mxl file's {entry} names no score. Export it again.", { entry: CONTAINER }));
  if (/^[/\\]|^[a-z][a-z0-9+.-]*:|\\|(^|\/)\.\.(\/|$)/i.test(path)) {
    throw new Unreadable(
      t('The .mxl file points outside itself (“{path}”), so it is not read. A sound file names an entry of its own.', { path }),
    );
  }
  return path;
}

function unpack(bytes: Uint8Array, name: string): Uint8Array | undefined {
  const chunks: Uint8Array[] = [];
  let size = 0;
  let found = false;
  let done = false;
  let entries = 0;
  const unzip = new Unzip((file) => {
    if (++entries > LIMITS.entries) {
      throw new Unreadable(
        t('The .mxl file holds more than {most} entries, which no score needs, so it is not read.', {
          most: LIMITS.entries,
        }),
      );
    }
    if (file.name !== name || found) return;
    found = true;
    file.ondata = (error, chunk, final) => {
      if (error) throw error;
      size += chunk.length;
      if (size > LIMITS.unpackedBytes) {
        throw new Unreadable(
          t('“{name}” in the .mxl file unpacks to more than {most} MB, more than any score, so it is not read.', {
            name,
            most: LIMITS.unpackedBytes / 2 ** 20,
          }),
        );
      }
      chunks.push(chunk);
      done ||= final;
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  try {
    for (let at = 0; at < bytes.length && !done; at += STEP) {
      unzip.push(bytes.subarray(at, at + STEP), at + STEP >= bytes.length);
    }
  } catch (error) {
    if (error instanceof Unreadable) throw error;
    throw new Unreadable(t('The .mxl file is damaged: it can’t be unpacked. Export it again.'));
  }
  if (!found) return undefined;
  if (!done) throw new Unreadable(t('The .mxl file is damaged: it ends in the middle of its score. Export it again.'));
  const whole = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

import type { Readable } from 'node:stream';

/** No message of an editor is longer, bytes; a passage of a million notes is not. */
const LONGEST = 2 ** 28;
/** Nor is a head: two short lines, as the protocol has them. */
const LONGEST_HEAD = 4096;
const END = '\r\n\r\n';

/**
 * Looks on while messages come in, each behind a head with its length (Language Server Protocol 3.17, “Base Protocol”). Once a
 * head is broken nobody can tell where the next message begins, and a server that reads on would be silent for good.
 *
 * @param broken is told why, once
 */
export function watchFrames(stream: Readable, broken: (why: string) => void): void {
  let head = '';
  /** Bytes of the message still to come. */
  let rest = 0;
  const look = (chunk: Buffer) => {
    for (let at = 0; at < chunk.length; ) {
      if (rest > 0) {
        const taken = Math.min(rest, chunk.length - at);
        rest -= taken;
        at += taken;
        continue;
      }
      // A head is ASCII, so a byte is a character.
      const known = head.length;
      head += chunk.toString('latin1', at, Math.min(chunk.length, at + LONGEST_HEAD));
      const end = head.indexOf(END);
      if (end === -1) {
        if (head.length >= LONGEST_HEAD) return stop('a head does not end');
        return;
      }
      const length = /^content-length: *(\d+) *$/im.exec(head.slice(0, end).replaceAll('\r', ''))?.[1];
      if (length === undefined) return stop('a head names no length');
      if (Number(length) > LONGEST) return stop(`a head announces ${length} bytes`);
      rest = Number(length);
      at += end + END.length - known;
      head = '';
    }
  };
  const stop = (why: string) => {
    stream.off('data', look);
    broken(why);
  };
  stream.on('data', look);
}

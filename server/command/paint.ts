import colours from 'picocolors';

export type Paint = ReturnType<typeof colours.createColors>;

/** Colours for a stream that a person reads; a file or another program gets plain text, whatever the environment says of CI. */
export function paintFor(stream: { readonly isTTY?: boolean }): Paint {
  return colours.createColors(colours.isColorSupported && (stream.isTTY === true || !!process.env.FORCE_COLOR));
}

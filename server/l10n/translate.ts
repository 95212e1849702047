/**
 * Whatever is said to people goes through `t`: a whole English sentence, which is its own key in the catalogue for translators
 * (`client/l10n/bundle.l10n.json`), with named holes. The format is that of VS Code's own bundles, whose one file for each
 * language serves extension, server and preview.
 */
export type Bundle = Readonly<Record<string, string>>;

/** Set once, where a program starts and before anything is said; what is said is kept here and there. */
let translations: ReadonlyMap<string, string> | undefined;

/** From here on everything is said in the language of `bundle`; without one in English. */
export function speak(bundle: Bundle | undefined): void {
  pieces.clear();
  // It comes out of files that others write: what is no text is left in English.
  translations = bundle && new Map(Object.entries(bundle).filter(([, said]) => typeof said === 'string'));
}

/** The names in braces. */
type Hole<Message extends string> = Message extends `${string}{${infer Name}}${infer Rest}` ? Name | Hole<Rest> : never;
type Holes<Message extends string> = [Hole<Message>] extends [never]
  ? []
  : [holes: Readonly<Record<Hole<Message>, string | number>>];

/** Messages that were said, in the reader's language: text and names of holes by turns. */
const pieces = new Map<string, readonly string[]>();

/** A message in the reader's language, its holes filled. */
export function t<const Message extends string>(message: Message, ...[holes]: Holes<Message>): string {
  if (!holes) return translations?.get(message) ?? message;
  const parts = pieces.get(message) ?? parted(message);
  let said = parts[0] as string;
  for (let at = 1; at < parts.length; at += 2) {
    const name = parts[at] as string;
    // A hole that a translator made up stays as it is.
    said += `${(holes as Record<string, string | number>)[name] ?? `{${name}}`}${parts[at + 1]}`;
  }
  return said;
}

function parted(message: string): readonly string[] {
  const parts = (translations?.get(message) ?? message).split(/\{(\w+)\}/);
  pieces.set(message, parts);
  return parts;
}

/** Words of a table that is made before the language is known: in the catalogue, and translated by `t` where they are said. */
export function later<const Message extends string>(message: Message): Message {
  return message;
}

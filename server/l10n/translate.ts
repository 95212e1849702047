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
  // It comes out of files that others write: what is no text is left in English.
  translations = bundle && new Map(Object.entries(bundle).filter(([, said]) => typeof said === 'string'));
}

/** The names in braces. */
type Hole<Message extends string> = Message extends `${string}{${infer Name}}${infer Rest}` ? Name | Hole<Rest> : never;
type Holes<Message extends string> = [Hole<Message>] extends [never]
  ? []
  : [holes: Readonly<Record<Hole<Message>, string | number>>];

/** A message in the reader's language, its holes filled. */
export function t<const Message extends string>(message: Message, ...[holes]: Holes<Message>): string {
  const said = translations?.get(message) ?? message;
  if (!holes) return said;
  // A hole that a translator made up stays as it is.
  return said.replace(/\{(\w+)\}/g, (hole, name) => String((holes as Record<string, string | number>)[name] ?? hole));
}

/** Words of a table that is made before the language is known: in the catalogue, and translated by `t` where they are said. */
export function later<const Message extends string>(message: Message): Message {
  return message;
}

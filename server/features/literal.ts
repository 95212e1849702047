/**
 * A user's own words in Markdown, as they are: a name may hold signs that would make it a link, a picture or markup, and hovers
 * are trusted to run commands.
 */
export function literal(text: string): string {
  return text.replace(/[\\`*_{}[\]()<>#+.!|~&:-]/g, '\\$&');
}

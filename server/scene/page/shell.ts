import { t } from '../../l10n/translate';
import { escaped } from '../svg';
import { GENERATOR } from './generator';

/** What a page is made of; `title` is text, the others are HTML, CSS and JavaScript as they are to stand there. */
export interface Shell {
  readonly title: string;
  readonly style: string;
  readonly body: string;
  readonly script: string;
}

/** A page that loads nothing and says who made it. Its policy lets run and shows what stands inline, until it is sealed (sealed.ts). */
export function pageShell({ title, style, body, script }: Shell): string {
  return `<!doctype html>
<html lang="${escaped(t('en'))}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'">
<meta name="generator" content="${GENERATOR}">
<title>${escaped(title)}</title>
<style>${style}</style>
</head>
<body>
${body}
<script>${script}</script>
</body>
</html>
`;
}

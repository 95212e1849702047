import type { Bundle } from '../../server/l10n/translate';

export interface PageParts {
  readonly nonce: string;
  /** The webview's own origin, for pictures. */
  readonly source: string;
  readonly script: string;
  readonly language: string;
  /** What VS Code has of our words in that language; undefined where it has none, and English is spoken. */
  readonly words?: Bundle | undefined;
}

/** The preview's page: an empty body and one script. Nothing may load from the network, and no other script may run. */
export function page({ nonce, source, script, language, words }: PageParts): string {
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src 'nonce-${nonce}'`,
    // `data:` and `blob:` turn the drawn SVG into a PNG.
    `img-src ${source} data: blob:`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="${attribute(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Passagework</title>
</head>
<body>
${words ? `<script type="application/json" id="words">${JSON.stringify(words).replaceAll('<', '\\u003c')}</script>\n` : ''}<script nonce="${nonce}" src="${attribute(script)}"></script>
</body>
</html>`;
}

/** 128 bits that no page can guess. */
export function newNonce(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}

function attribute(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/"/g, '&quot;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
}

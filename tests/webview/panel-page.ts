import { build } from 'esbuild';
import { type Browser, chromium, type Page } from 'playwright-core';
import { page as previewPage } from '../../client/preview/page';
import type { HostMessage, NoteAddress, PanelMessage } from '../../client/webview/messages';
import type { Bundle } from '../../server/l10n/translate';
import type { SceneAlternative } from '../../server/protocol/scene';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const ORIGIN = 'https://panel.test';

export function openBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: CHROMIUM,
    args: ['--no-sandbox', '--disable-gpu', '--autoplay-policy=user-gesture-required'],
  });
}

export type Theme = 'vscode-light' | 'vscode-dark' | 'vscode-high-contrast' | 'vscode-high-contrast-light';

/** Colours as VS Code's own themes set them on the page of a webview. */
const THEMES: Readonly<Record<Theme, string>> = {
  'vscode-light': '--vscode-editor-background:#ffffff;--vscode-editor-foreground:#3b3b3b;--vscode-focusBorder:#005fb8',
  'vscode-dark': '--vscode-editor-background:#1f1f1f;--vscode-editor-foreground:#cccccc;--vscode-focusBorder:#0078d4',
  'vscode-high-contrast': '--vscode-editor-background:#000000;--vscode-editor-foreground:#ffffff;--vscode-focusBorder:#f38518',
  'vscode-high-contrast-light':
    '--vscode-editor-background:#ffffff;--vscode-editor-foreground:#292929;--vscode-focusBorder:#006bbd',
};

/** The built panel in a browser, under the extension's own page and content policy, with a host that listens, and answers what the panel asks. */
export class PanelPage {
  private constructor(
    readonly page: Page,
    readonly broken: string[],
  ) {}

  static async open(
    browser: Browser,
    theme: Theme,
    size: { width: number; height: number },
    others: (at: NoteAddress) => readonly SceneAlternative[],
    words?: Bundle,
  ): Promise<PanelPage> {
    const script = await bundle();
    const page = await browser.newPage({
      viewport: size,
      colorScheme: theme.includes('dark') || theme === 'vscode-high-contrast' ? 'dark' : 'light',
    });
    const broken: string[] = [];
    page.on('pageerror', (error) => broken.push(error.message));
    page.on('console', (line) => line.type() === 'error' && broken.push(line.text()));
    const html = previewPage({ nonce: 'harbour', source: ORIGIN, script: `${ORIGIN}/webview.js`, language: 'en', words });
    await page.route(`${ORIGIN}/**`, (route) =>
      route.request().url().endsWith('.js')
        ? route.fulfill({ contentType: 'text/javascript', body: script })
        : route.request().url().endsWith('/')
          ? route.fulfill({ contentType: 'text/html', body: html })
          : route.fulfill({ status: 404, body: '' }),
    );
    await page.exposeFunction('others', others);
    await page.addInitScript(
      ([name, colours]) => {
        const sent: unknown[] = [];
        Object.assign(globalThis, {
          sent,
          acquireVsCodeApi: () => ({
            postMessage: (message: PanelMessage) => {
              sent.push(message);
              if (message.type !== 'ask') return;
              const { version, at } = message;
              const { others } = globalThis as unknown as { others(at: NoteAddress): Promise<unknown> };
              void others(at).then((alternatives) => postMessage({ type: 'alternatives', version, at, alternatives }, '*'));
            },
            getState: () => undefined,
            setState: () => undefined,
          }),
        });
        addEventListener('DOMContentLoaded', () => {
          // VS Code gives its light high contrast both names.
          document.body.className = name === 'vscode-high-contrast-light' ? `vscode-high-contrast ${name}` : (name as string);
          for (const colour of (colours as string).split(';')) {
            const [key = '', value = ''] = colour.split(':');
            document.documentElement.style.setProperty(key, value);
          }
        });
      },
      [theme, THEMES[theme]],
    );
    await page.goto(`${ORIGIN}/`);
    return new PanelPage(page, broken);
  }

  /** What the panel has sent so far. */
  sent(): Promise<PanelMessage[]> {
    return this.page.evaluate(() => (globalThis as unknown as { sent: PanelMessage[] }).sent);
  }

  async send(message: HostMessage): Promise<void> {
    await this.page.evaluate((data) => postMessage(data, '*'), message as never);
    await this.page.waitForTimeout(60);
  }
}

let built: Promise<string> | undefined;

function bundle(): Promise<string> {
  built ??= build({
    entryPoints: ['client/webview/main.ts'],
    bundle: true,
    write: false,
    format: 'iife',
    platform: 'browser',
    target: 'es2022',
    minify: true,
  }).then(({ outputFiles }) => outputFiles[0]!.text);
  return built;
}

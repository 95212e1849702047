import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, FrameLocator, Locator, Page } from 'playwright-core';

/** Patience for one thing to appear, ms: two busy cores start an extension host and solve a file in this. */
export const PATIENCE = 60_000;
/** Patience before doing something again that the workbench may have swallowed while it was busy, ms. */
const TRY = 5_000;

/** A person at a VS Code in the browser: keys and mouse only, and what can be seen. */
export class Editor {
  private constructor(
    readonly page: Page,
    private readonly pictures: string,
  ) {}

  static async open(browser: Browser, address: string, pictures: string): Promise<Editor> {
    const context = await browser.newContext({ viewport: { width: 1360, height: 860 }, deviceScaleFactor: 1 });
    const page = await context.newPage();
    page.setDefaultTimeout(PATIENCE);
    const folder = resolve('out/workbench', pictures);
    mkdirSync(folder, { recursive: true });
    const editor = new Editor(page, folder);
    await page.goto(address);
    await page.locator('.monaco-workbench').waitFor();
    await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
    return editor;
  }

  async close(): Promise<void> {
    await this.page.context().close();
  }

  /** Does `act` until `seen` is there, since a key pressed too early goes nowhere. */
  async until(seen: Locator, act: () => Promise<unknown>): Promise<void> {
    const end = Date.now() + PATIENCE;
    for (;;) {
      await act();
      try {
        return await seen.first().waitFor({ timeout: TRY });
      } catch (error) {
        if (Date.now() > end) throw error;
        await this.page.keyboard.press('Escape');
      }
    }
  }

  async openFile(name: string): Promise<void> {
    const { keyboard } = this.page;
    const input = this.page.locator('.quick-input-widget:visible input');
    await this.until(this.page.locator(`.tab.active[aria-label^="${name}"]`), async () => {
      await this.until(input, () => keyboard.press('Control+p'));
      await input.fill(name);
      await this.page.locator('.quick-input-list .monaco-list-row', { hasText: name }).first().waitFor({ timeout: TRY });
      await keyboard.press('Enter');
    });
    await this.focus();
  }

  /** Puts the keyboard into the text. */
  async focus(): Promise<void> {
    const lines = this.page.locator('.editor-instance .view-lines').first();
    await this.until(this.page.locator('.monaco-editor.focused'), () => lines.click({ position: { x: 300, y: 8 } }));
  }

  /** Runs a command as a person would, by its title. */
  async command(title: string): Promise<void> {
    const input = this.page.locator('.quick-input-widget:visible input');
    const row = this.page.locator('.quick-input-list .monaco-list-row', { hasText: title }).first();
    await this.until(row, async () => {
      await this.until(input, () => this.page.keyboard.press('F1'));
      await input.fill(`>${title}`);
    });
    await row.click();
  }

  /** Line and column count from 1. */
  async cursorTo(line: number, column: number): Promise<void> {
    await this.focus();
    const input = this.page.locator('.quick-input-widget:visible input');
    await this.until(input, () => this.page.keyboard.press('Control+g'));
    await input.fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await this.page.locator('.monaco-editor.focused').first().waitFor();
    await this.page.locator('#status\\.editor\\.selection', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
  }

  /** What the status bar says of the cursor, such as `Ln 3, Col 7 (4 selected)`. */
  place(): Locator {
    return this.page.locator('#status\\.editor\\.selection');
  }

  /** Rests the pointer on the first place where `text` can be seen. */
  async pointAt(text: string): Promise<void> {
    const box = await this.page.locator('.editor-instance .view-line').evaluateAll((lines, wanted) => {
      const top = (line: Element) => Number.parseFloat((line as HTMLElement).style.top);
      for (const line of lines.sort((a, b) => top(a) - top(b))) {
        const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
        for (let node = walker.nextNode(); node; node = walker.nextNode()) {
          const at = (node.textContent ?? '').replace(/\u00a0/g, ' ').indexOf(wanted);
          if (at < 0) continue;
          const range = document.createRange();
          range.setStart(node, at);
          range.setEnd(node, at + wanted.length);
          const { x, y, width, height } = range.getBoundingClientRect();
          return { x: x + width / 2, y: y + height / 2 };
        }
      }
      return undefined;
    }, text);
    if (!box) throw new Error(`“${text}” is not on the screen.`);
    await this.page.mouse.move(box.x + 40, box.y + 60);
    await this.page.mouse.move(box.x, box.y, { steps: 4 });
  }

  /** Rests the pointer on `text` until a hover says `said`. */
  async hover(text: string, said: RegExp | string): Promise<Locator> {
    const hover = this.page.locator('.monaco-hover:visible', { hasText: said });
    await this.until(hover, () => this.pointAt(text));
    return hover.first();
  }

  /** Opens the menu of quick fixes at the cursor; picks the one with this title. */
  async quickFix(title: RegExp | string): Promise<string> {
    const row = this.page.locator('.action-widget .monaco-list-row', { hasText: title });
    await this.until(row, () => this.page.keyboard.press('Control+.'));
    const name = (await row.first().innerText()).trim();
    await row.first().click();
    await this.page.locator('.action-widget').waitFor({ state: 'hidden' });
    return name;
  }

  problems(): Locator {
    return this.page.locator('.markers-panel .monaco-list-row');
  }

  async openProblems(): Promise<void> {
    await this.until(this.page.locator('.markers-panel'), () => this.page.keyboard.press('Control+Shift+m'));
  }

  /** The preview's page, once it is open. */
  preview(): FrameLocator {
    return this.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  }

  status(): Locator {
    return this.page.locator('#passagework\\.passagework\\.passagework\\.status, [id^="passagework.passagework"]').first();
  }

  async text(): Promise<string> {
    const lines = await this.page.locator('.editor-instance .view-line').evaluateAll((found) =>
      found
        .map((line) => ({ top: Number.parseFloat((line as HTMLElement).style.top), text: line.textContent ?? '' }))
        .sort((a, b) => a.top - b.top)
        .map(({ text }) => text.replace(/\u00a0/g, ' ')),
    );
    return lines.join('\n');
  }

  async picture(name: string): Promise<void> {
    await this.page.screenshot({ path: join(this.pictures, `${name}.png`) });
  }
}

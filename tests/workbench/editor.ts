import { mkdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Frame, FrameLocator, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { PATIENCE } from './patience';

/** Patience before doing something again that the workbench may have swallowed while it was busy, ms. */
const TRY = 8_000;

/** A person at a VS Code in the browser: keys and mouse only, and what can be seen. */
export class Editor {
  private constructor(
    readonly page: Page,
    readonly pictures: string,
  ) {}

  static async open(browser: Browser, address: string, pictures: string): Promise<Editor> {
    const context = await browser.newContext({ viewport: { width: 1360, height: 860 }, deviceScaleFactor: 1 });
    const page = await context.newPage();
    page.setDefaultTimeout(PATIENCE);
    const folder = resolve('out/workbench', pictures);
    rmSync(folder, { recursive: true, force: true });
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

  /** Does `act` until `seen` is there, since what is pressed too early goes nowhere. */
  async until(seen: Locator, act: () => Promise<unknown>): Promise<void> {
    const end = Date.now() + PATIENCE;
    for (;;) {
      try {
        await act();
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
      // Where the preview has the keyboard, the file would open beside it.
      await keyboard.press('Control+1');
      await this.until(input, () => keyboard.press('Control+p'));
      await input.fill(name);
      await this.page.locator('.quick-input-list .monaco-list-row', { hasText: name }).first().waitFor({ timeout: TRY });
      await keyboard.press('Enter');
    });
    await this.focus();
  }

  /** Puts the keyboard into the text, which is always in the first group of editors; the cursor stays. */
  async focus(): Promise<void> {
    await this.until(this.page.locator('.monaco-editor.focused'), () => this.page.keyboard.press('Control+1'));
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

  /** Picks an entry of the list that a command has opened. */
  async choose(label: string): Promise<void> {
    await this.page.locator('.quick-input-list .monaco-list-row', { hasText: label }).first().click();
  }

  /** Confirms the dialog for a file to write, which suggests this name. */
  async confirmFile(name: string): Promise<void> {
    const dialog = this.page.locator('.quick-input-widget:visible');
    const input = dialog.locator('input[type="text"]').first();
    // The folder's files come in later than the name; before that the dialog takes no answer.
    await dialog.locator('.monaco-list-row').first().waitFor();
    await expect.poll(() => input.inputValue(), { timeout: PATIENCE }).toMatch(new RegExp(`/${name.replace('.', '\\.')}$`));
    await input.press('Enter');
    await dialog.waitFor({ state: 'hidden' });
  }

  /** The tab of a document that was never saved, where that is being edited. */
  untitled(): Locator {
    return this.page.locator('.tab.active[aria-label*="Untitled"]:not([aria-label^="Preview"])');
  }

  /** Closes the unsaved document being edited, with all that is in it. */
  async discardUntitled(): Promise<void> {
    await this.command('View: Revert and Close Editor');
    await this.untitled().waitFor({ state: 'detached' });
  }

  /** Changes the colours of the whole window. */
  async theme(label: string): Promise<void> {
    await this.command('Preferences: Color Theme');
    await this.page.locator('.quick-input-widget:visible input[placeholder*="Color Theme"]').fill(label);
    await this.choose(label);
    await this.page.locator('.quick-input-widget').first().waitFor({ state: 'hidden' });
  }

  /** Line and column count from 1. */
  async cursorTo(line: number, column: number): Promise<void> {
    await this.focus();
    const input = this.page.locator('.quick-input-widget:visible input');
    await this.until(input, () => this.page.keyboard.press('Control+g'));
    await input.fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await this.page.locator('.monaco-editor.focused').first().waitFor();
    await this.place(`Ln ${line}, Col ${column}`).waitFor();
  }

  /** The cursor's entry in the status bar, where it reads like `Ln 3, Col 7 (4 selected)`. */
  place(reads: string): Locator {
    return this.page.locator('#status\\.editor\\.selection', { hasText: reads });
  }

  /** Rests the pointer on the first place where `text` can be seen. */
  async pointAt(text: string): Promise<void> {
    const box = await this.page.locator('.editor-instance .view-line').evaluateAll((lines, wanted) => {
      const top = (line: Element) => Number.parseFloat((line as HTMLElement).style.top);
      /** The text node and offset in it of a character of the line, which colours cut into pieces. */
      const locate = (line: Element, character: number): [Node, number] => {
        const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
        let rest = character;
        for (let node = walker.nextNode(); node; node = walker.nextNode()) {
          const { length } = node.textContent ?? '';
          if (rest <= length) return [node, rest];
          rest -= length;
        }
        return [line, 0];
      };
      for (const line of lines.sort((a, b) => top(a) - top(b))) {
        const at = (line.textContent ?? '').replace(/\u00a0/g, ' ').indexOf(wanted);
        if (at < 0) continue;
        const range = document.createRange();
        range.setStart(...locate(line, at));
        range.setEnd(...locate(line, at + wanted.length));
        const { x, y, width, height } = range.getBoundingClientRect();
        return { x: x + width / 2, y: y + height / 2 };
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
  async quickFix(title: RegExp | string): Promise<void> {
    const row = this.page.locator('.action-widget .monaco-list-row', { hasText: title });
    await this.until(row, () => this.page.keyboard.press('Control+.'));
    await row.first().click();
    await row.first().waitFor({ state: 'hidden' });
  }

  /**
   * Undoes the last edit, or with `redo` brings it back, and saves. Saving by itself would not do: VS Code takes the text for
   * saved where an undo overtakes the saving of the very edit that it undoes.
   */
  async undo(how: 'undo' | 'redo' = 'undo'): Promise<void> {
    await this.focus();
    await this.page.keyboard.press(how === 'undo' ? 'Control+z' : 'Control+Shift+z');
    await this.page.keyboard.press('Control+s');
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

  /** The preview's page as a frame, to run code in. */
  async previewFrame(): Promise<Frame> {
    const element = await this.preview().locator('body').elementHandle();
    const frame = await element?.ownerFrame();
    if (!frame) throw new Error('The preview is not open.');
    return frame;
  }

  /** A note of the preview's staff, if asked for one that is marked. */
  note(event: number, marked?: 'pw-on' | 'pw-playing'): Locator {
    return this.preview()
      .locator(`.staff [data-event="${event}"]${marked ? `.${marked}` : ''}`)
      .first();
  }

  /** The entry of the status bar that reads like this. */
  status(reads: RegExp): Locator {
    return this.page.locator('.statusbar-item', { hasText: reads }).first();
  }

  /** Takes away what has piled up over the window: messages, and the tip of whatever the pointer rests on. */
  async tidy(): Promise<void> {
    await this.command('Notifications: Clear All Notifications');
    await this.page.locator('.notifications-toasts.visible').waitFor({ state: 'hidden' });
    const { width, height } = this.page.viewportSize() ?? { width: 1360, height: 860 };
    await this.page.mouse.move(width * 0.3, height * 0.8);
    await this.page.locator('.monaco-hover:visible').first().waitFor({ state: 'hidden' });
  }

  /** A picture of the window, kept as output of the tests. */
  async picture(name: string): Promise<void> {
    await this.page.screenshot({ path: join(this.pictures, `${name}.png`) });
  }
}

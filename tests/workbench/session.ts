import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import type { TestContext } from 'vitest';
import { launchBrowser } from './browser';
import { Editor } from './editor';
import { folderAddress, reads, sampleFolder } from './sample';
import { type RunningServer, type ServerOptions, startServer } from './vscode-server';

export interface SessionOptions extends ServerOptions {
  /** Names the folder that is opened. */
  readonly folder: string;
  /** What is in it beside the shipped examples. */
  readonly files: Readonly<Record<string, string | Uint8Array>>;
}

/** A VS Code of its own, a browser, and a person at it with a folder open. */
export class Session {
  private constructor(
    readonly server: RunningServer,
    private readonly browser: Browser,
    readonly editor: Editor,
    private readonly folder: string,
  ) {}

  static async open({ folder: name, files, ...options }: SessionOptions): Promise<Session> {
    const folder = sampleFolder(name, files);
    const server = await startServer(options);
    let browser: Browser | undefined;
    try {
      browser = await launchBrowser();
      return new Session(server, browser, await Editor.open(browser, folderAddress(server.origin, folder), options.name), folder);
    } catch (error) {
      await browser?.close();
      await server.stop();
      throw error;
    }
  }

  /** Waits until a file of the folder, which the editor saves by itself, reads as wanted. */
  saved(file: string, wanted: RegExp): Promise<void> {
    return reads(join(this.folder, file), wanted);
  }

  /** For `afterEach`: what the screen showed when a test failed. */
  async keepFailure({ task }: Pick<TestContext, 'task'>): Promise<void> {
    if (task.result?.state !== 'fail') return;
    await this.editor.picture(`failed ${task.name.slice(0, 60)}`.replace(/\W+/g, '-'));
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.server.stop();
  }
}

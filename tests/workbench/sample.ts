import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { PATIENCE } from './patience';

/** A fresh folder of passages to open: the examples that ship, and whatever a test wants beside them. */
export function sampleFolder(name: string, files: Readonly<Record<string, string | Uint8Array>> = {}): string {
  const folder = resolve('.cache/workbench', name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  cpSync('client/examples', folder, { recursive: true });
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
  return folder;
}

/** The address at which a VS Code server shows `folder`. */
export function folderAddress(origin: string, folder: string): string {
  return `${origin}/?folder=${encodeURIComponent(folder)}`;
}

/** Waits until a file on disk, which the editor saves by itself, matches. What is on the screen has hints between the words. */
export async function reads(file: string, wanted: RegExp): Promise<void> {
  const end = Date.now() + PATIENCE;
  for (;;) {
    const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
    if (wanted.test(text)) return;
    if (Date.now() > end) throw new Error(`${wanted} is not in ${file}:\n${text}`);
    await wait(100);
  }
}

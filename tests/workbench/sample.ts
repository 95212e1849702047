import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** A fresh folder of passages to open: the examples that ship, and whatever a test wants beside them. */
export function sampleFolder(name: string, files: Readonly<Record<string, string>> = {}): string {
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

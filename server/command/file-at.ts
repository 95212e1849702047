import { type Stats, statSync } from 'node:fs';

/** What stands at a path; undefined for nothing, and for what can't be reached: the way leads through a file, or round in links. */
export function fileAt(path: string): Stats | undefined {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
}

export function isFile(path: string): boolean {
  return fileAt(path)?.isFile() === true;
}

export function isFolder(path: string): boolean {
  return fileAt(path)?.isDirectory() === true;
}

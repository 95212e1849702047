import type * as vscode from 'vscode';

/** `lighthouse-study.passage`. */
export function fileName({ path }: vscode.Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

/** Debian's own Chromium, or the one that `CHROMIUM` names. */
export function launchBrowser(): Promise<Browser> {
  const executablePath = [process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser'].find(
    (path) => path && existsSync(path),
  );
  if (!executablePath)
    throw new Error('No Chromium found. Install it (Debian: apt-get install chromium) or name it in CHROMIUM.');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--autoplay-policy=user-gesture-required',
    ],
  });
}

import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const places = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

const found = (): string | undefined =>
  [process.env.CHROMIUM_PATH, ...places].find((path) => path && existsSync(path));

/** Path of a Chromium, installed from Debian's packages where there is none and this user may. Throws in words. */
export function chromiumPath(): string {
  const path = found();
  if (path) return path;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    execFileSync('apt-get', ['update'], { stdio: 'inherit' });
    execFileSync('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], {
      stdio: 'inherit',
    });
  }
  const installed = found();
  if (installed) return installed;
  throw new Error(
    'The browser tests need Chromium: install it, or set CHROMIUM_PATH to its executable.',
  );
}

/** Headless Chromium that draws WebGL in software and asks nothing of the network by itself. */
export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: chromiumPath(),
    args: [
      '--no-sandbox',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--enable-unsafe-swiftshader',
    ],
  });

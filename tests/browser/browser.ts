// The browser of the page tests, kept off the network. No test in here.

import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const PATH =
  process.env['PITWARD_BROWSER'] ||
  ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium'].find((path) => existsSync(path)) ||
  '/usr/bin/chromium';

export const hasBrowser = existsSync(PATH);
if (!hasBrowser) console.log(`tests/browser skipped: no browser at ${PATH}`);

/** Flags that keep it off the network, and let it run as root in a container. */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const launch = (): Promise<Browser> => chromium.launch({ executablePath: PATH, args: FLAGS });

// A headless Chromium for the page tests: Debian's headless shell where it is or may be installed, else the machine's own. The
// shell has no window around a page, and opens one with a third of the processor's time.

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const SHELL = '/usr/bin/chromium-headless-shell';
const KNOWN = [
  SHELL,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

export const findBrowser = () =>
  [process.env.PITWARD_BROWSER, ...KNOWN].find((path) => path && existsSync(path)) ?? null;

/** Path of a browser, installing Debian's where that is allowed; null where there is none to be had. */
export function ensureBrowser() {
  if (process.env.PITWARD_BROWSER) return findBrowser();
  if (!existsSync(SHELL)) installDebian('chromium-headless-shell', 'a browser for the page tests');
  if (findBrowser() === null) installDebian('chromium', 'a browser for the page tests');
  return findBrowser();
}

/** True where PostgreSQL's server program is on the machine. */
const hasPostgres = () =>
  ['/usr/local/bin/postgres', '/usr/lib/postgresql'].some((path) => existsSync(path)) ||
  spawnSync('postgres', ['--version'], { stdio: 'ignore' }).status === 0;

/** PostgreSQL's server program, for suites that need one; installed likewise. */
export function ensureDatabase() {
  if (!hasPostgres()) installDebian('postgresql', 'a database server for the store tests');
  return hasPostgres();
}

function installDebian(name, why) {
  const isRoot = process.getuid?.() === 0;
  if (process.platform !== 'linux' || !isRoot || !existsSync('/usr/bin/apt-get')) return;
  console.error(`Installing Debian's ${name}: ${why} ...`);
  const options = {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  };
  spawnSync('apt-get', ['update', '-qq'], options);
  spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', name], options);
}

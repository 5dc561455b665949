// A headless Chromium for the page tests: the machine's own, or Debian's package where this process may install it.

import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const KNOWN = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

export const findBrowser = () =>
  [process.env.PITWARD_BROWSER, ...KNOWN].find((path) => path && existsSync(path)) ?? null;

/** Path of a browser, installing Debian's where that is allowed; null where there is none to be had. */
export function ensureBrowser() {
  const found = findBrowser();
  if (found) return found;
  installDebian('chromium', 'a browser for the page tests');
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

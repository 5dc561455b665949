// The scripts of the pages as browsers get them: our own files with their types stripped, joined and named by their content.
// There is no build: this is done once, when a page first wants them or a start is over; it loads a compiler.

import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { stripTypeScriptTypes } from 'node:module';
import { noCopyPage } from '#publish/page/no-copy-page.ts';

export interface PhoneFiles {
  /** Addresses of the scripts of each kind of page. */
  readonly day: string;
  readonly glance: string;
  readonly map: string;
  /** By the name that stands in the address. */
  readonly scripts: ReadonlyMap<string, string>;
  readonly worker: string;
  /** Another one for other bytes. */
  readonly version: string;
}

const PARTS = {
  day: ['age', 'keep'],
  glance: ['age', 'keep', 'queue', 'glance', 'taps'],
  map: ['map'],
  worker: ['queue', 'worker'],
} as const;

const made = new Map<string, PhoneFiles>();

/** The same, made once in a process. */
export function phoneFilesOf(version: string): PhoneFiles {
  const known = made.get(version) ?? makePhoneFiles(version);
  made.set(version, known);
  return known;
}

/** `version`: of the program; another one replaces the worker of every phone. */
export function makePhoneFiles(version: string): PhoneFiles {
  const [day, glance, worker] = [joined(PARTS.day), joined(PARTS.glance), joined(PARTS.worker)];
  const map = joined(PARTS.map);
  const pages = { en: noCopyPage('en'), es: noCopyPage('es') };
  const fixed = `const NO_COPY=${JSON.stringify(pages)};`;
  const hash = hashOf([version, day, glance, worker, fixed].join('\n'));
  const named = new Map([day, glance, map].map((text) => [`${hashOf(text)}.js`, text]));
  return {
    day: `/s/${hashOf(day)}.js`,
    glance: `/s/${hashOf(glance)}.js`,
    map: `/s/${hashOf(map)}.js`,
    scripts: named,
    worker: `const VERSION=${JSON.stringify(hash)};${fixed}\n${worker}`,
    version: hash,
  };
}

const hashOf = (text: string): string => createHash('sha256').update(text).digest('base64url').slice(0, 16);

/** In a function of its own: nothing of it is seen by other scripts. */
const joined = (names: readonly string[]): string =>
  `(()=>{'use strict';\n${names.map((name) => scriptOf(name)).join('\n')}\n})();\n`;

function scriptOf(name: string): string {
  const text = readFileSync(new URL(`../phone/${name}.ts`, import.meta.url), 'utf8');
  return quietly(() => stripTypeScriptTypes(text))
    .replaceAll(/^\s*\/\*\*[\s\S]*?\*\/\s*$/gm, '')
    .split('\n')
    .filter((line) => line.trim() !== '' && !line.trim().startsWith('//'))
    .map((line) => line.trim())
    .join('\n');
}

/** The runtime calls the stripping experimental at each start; it is pinned, and tests run what comes out. */
function quietly<T>(work: () => T): T {
  const { emitWarning } = process;
  process.emitWarning = () => undefined;
  try {
    return work();
  } finally {
    process.emitWarning = emitWarning;
  }
}

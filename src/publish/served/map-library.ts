// MapLibre as browsers get it: the two files of its package, read when a map is first asked for, named by its version.

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

export interface MapLibrary {
  /** Addresses. */
  readonly module: string;
  readonly worker: string;
  /** By the name that stands in the address; null: no such file. */
  text(name: string): string | null;
}

const require = createRequire(import.meta.url);
const PACKAGE = 'maplibre-gl';

export function openMapLibrary(): MapLibrary {
  const { version } = require(`${PACKAGE}/package.json`) as { version: string };
  const files = new Map([
    [`map-${version}.mjs`, 'maplibre-gl.mjs'],
    [`map-worker-${version}.mjs`, 'maplibre-gl-worker.mjs'],
  ]);
  const read = new Map<string, string>();
  const [module, worker] = [...files.keys()].map((name) => `/board/s/${name}`) as [string, string];
  return {
    module,
    worker,
    text: (name) => {
      const file = files.get(name);
      if (file === undefined) return null;
      const text = read.get(name) ?? readFileSync(require.resolve(`${PACKAGE}/dist/${file}`), 'utf8');
      read.set(name, text);
      return text;
    },
  };
}

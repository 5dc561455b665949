// Files for one test file, in a folder that goes when its tests are done.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll } from 'vitest';

export function useFiles() {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'pitward-cli-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return {
    folder: () => folder,
    /** Writes a file and tells its path. */
    file(name: string, text: string): string {
      const path = join(folder, name);
      writeFileSync(path, text);
      return path;
    },
  };
}

// pitward backup and restore, from one file to another and to a database server.

import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openStore } from '#store/open-store.ts';
import { changeOf } from '../builders/store.ts';
import { freshDatabase } from '../postgres/fresh-database.ts';
import { noPostgres } from '../store/on-each-store.ts';
import { run } from './run.ts';

const EXAMPLE = fileURLToPath(new URL('../../fixtures/config/example.yaml', import.meta.url));
const NOW = { nowMs: () => 0 };
let folder = '';
const at = (name: string): string => join(folder, name);
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'pitward-cli-'));
  copyFileSync(EXAMPLE, at('pitward.yaml'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const config = ['--config', 'pitward.yaml'] as const;
const call = (verb: string, file: string, environment = {}) =>
  run([verb, at(file), config[0], at(config[1])], { environment });

it('a backup of a store that is being served from can be restored into a new one', async () => {
  const serving = await openStore({ sqliteFile: at('pitward.db') }, NOW);
  await serving.definitions.change([changeOf('north-block', 0)]);
  const made = await call('backup', 'a.backup');
  expect(made).toMatchObject({ code: 0, err: '' });
  expect(made.out).toMatch(/a\.backup: \d+ rows \(0 plans, 0 documents\), as of 2026-03-03T01:10:00Z$/);
  expect(await call('restore', 'a.backup')).toMatchObject({
    code: 1,
    err: expect.stringContaining('another Pitward is serving from'),
  });
  await serving.close();
  expect(await call('restore', 'a.backup')).toMatchObject({
    code: 1,
    err: expect.stringContaining('not empty'),
  });
  for (const end of ['', '-wal', '-shm', '.lock']) rmSync(at(`pitward.db${end}`), { force: true });
  expect((await call('restore', 'a.backup')).out).toMatch(/^Restored from .*a\.backup: /);
  const restored = await openStore({ sqliteFile: at('pitward.db') }, NOW);
  expect((await restored.definitions.current()).map((d) => d.id)).toEqual(['north-block']);
  await restored.close();
});

it.skipIf(noPostgres)('DATABASE_URL names the store instead: a laptop can move to a server', async () => {
  const laptop = await openStore({ sqliteFile: at('pitward.db') }, NOW);
  await laptop.definitions.change([changeOf('north-block', 0)]);
  await laptop.close();
  await call('backup', 'a.backup');
  const environment = { DATABASE_URL: await freshDatabase() };
  expect(await call('restore', 'a.backup', environment)).toMatchObject({ code: 0 });
  const server = await openStore({ databaseUrl: environment.DATABASE_URL }, NOW);
  expect((await server.definitions.current()).map((d) => d.id)).toEqual(['north-block']);
  await server.close();
  expect(await call('backup', 'b.backup', environment)).toMatchObject({ code: 0 });
});

it('where there is no store, none is made by backing it up', async () => {
  expect(await call('backup', 'a.backup')).toMatchObject({
    code: 1,
    err: expect.stringContaining('no store'),
  });
  expect((await run(['backup', ...config])).code).toBe(2);
  expect((await run(['restore', 'a', 'b', ...config])).code).toBe(2);
  expect((await call('restore', 'nowhere.backup')).err).toContain('cannot restore from');
});

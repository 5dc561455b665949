// The same where DATABASE_URL names the store.

import { expect, it } from 'vitest';
import { readConfigFile } from '#config/load.ts';
import { importFile } from '#service/import-config.ts';
import { openStore } from '#store/open-store.ts';
import { freshDatabase } from '../postgres/fresh-database.ts';
import { DEMO_YAML } from '../service/running.ts';
import { noPostgres } from '../store/on-each-store.ts';
import { run } from './run.ts';
import { useFiles } from './use-files.ts';

const NOW = '2026-03-03T18:30:00Z';
const { file } = useFiles();

it.skipIf(noPostgres)(
  'a ban in the database is a stop; a database without tables or answer is no go',
  async () => {
    const own = file('own.yaml', DEMO_YAML);
    const saved = file('saved.json', (await run(['save', 'north-block', '--demo'], { now: NOW })).out);
    const check = (databaseUrl: string) =>
      run(['check', 'north-block', '--config', own, '--forecast', saved], {
        now: NOW,
        environment: { DATABASE_URL: databaseUrl },
      });
    const databaseUrl = await freshDatabase();
    expect(await check(databaseUrl)).toMatchObject({
      code: 12,
      out: '',
      err: expect.stringContaining('no tables yet'),
    });
    const store = await openStore({ databaseUrl }, { nowMs: () => Date.parse(NOW) });
    const { config, written } = readConfigFile(own);
    const { organisation } = config;
    const by = { changedAtMs: Date.parse(NOW), changedBy: 'office' };
    await importFile(store, { written, organisation, file: 'own.yaml', nowMs: by.changedAtMs });
    expect((await check(databaseUrl)).code).toBe(0);
    const body = { name: 'Burn ban', issuer: 'Kettle county' };
    await store.definitions.change([
      { organisation, kind: 'order', id: 'ban', body, replaces: 0, origin: 'api', ...by },
    ]);
    expect(await check(databaseUrl)).toMatchObject({ code: 11, out: expect.stringContaining('Burn ban') });
    await store.close();
    expect(await check('postgres://nobody@127.0.0.1:9/none')).toMatchObject({ code: 12, out: '' });
  },
);

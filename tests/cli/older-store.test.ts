// Commands that only read, beside a service of an older version: its store stays as it is.

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, it } from 'vitest';
import { openStore } from '#store/open-store.ts';
import { run } from './run.ts';
import { useFiles } from './use-files.ts';

const { file, folder } = useFiles();
const EXAMPLE = readFileSync(new URL('../../fixtures/config/example.yaml', import.meta.url), 'utf8');

/** Everything that the database says of its tables. */
function schemaOf(sqliteFile: string): unknown {
  const database = new DatabaseSync(sqliteFile, { readOnly: true });
  const tables = database.prepare('select * from sqlite_master order by name').all();
  const applied = database.prepare('select name from kysely_migration order by name').all();
  database.close();
  return { tables, applied };
}

it('what only reads leaves an older schema unchanged and says why in one line', async () => {
  const config = file('older.yaml', `${EXAMPLE}\nstore: { file: older.db }\n`);
  const sqliteFile = join(folder(), 'older.db');
  await (await openStore({ sqliteFile }, { nowMs: () => 0 })).close();
  const database = new DatabaseSync(sqliteFile);
  database.exec(`drop table cap_feeds; drop table cap_messages; drop table burn_incidents;
    delete from kysely_migration where name = '0010-cap'`);
  database.close();
  const before = schemaOf(sqliteFile);
  const commands = [
    ['check-config'],
    ['key', 'list'],
    ['backup', join(folder(), 'a.backup')],
    ['recall', 'north-block'],
  ];
  for (const words of commands) {
    const { code, out, err } = await run([...words, '--config', config]);
    expect([words[0], code, out]).toEqual([words[0], 1, '']);
    expect(err).toMatch(/^the store is as an older Pitward left it \(pending: 0010-cap\).*$/);
    expect(schemaOf(sqliteFile)).toEqual(before);
  }
});

it('what only reads makes no store where there is none', async () => {
  const config = file('none.yaml', `${EXAMPLE}\nstore: { file: none.db }\n`);
  expect((await run(['check-config', '--config', config])).code).toBe(0);
  expect(await run(['key', 'list', '--config', config])).toMatchObject({
    code: 1,
    err: expect.stringMatching(/there is no store .*none\.db yet/),
  });
  expect(existsSync(join(folder(), 'none.db'))).toBe(false);
});

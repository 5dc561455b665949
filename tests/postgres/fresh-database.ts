// New, empty databases on the tests' PostgreSQL server.

import { randomUUID } from 'node:crypto';
import { connect } from 'node:net';
import { text } from 'node:stream/consumers';
import pg from 'pg';
import { inject } from 'vitest';

const urlOf = (port: number, database: string): string => `postgres://pitward@127.0.0.1:${port}/${database}`;

/** Address of a new one. */
export async function freshDatabase(): Promise<string> {
  const port = await serverPort();
  const name = `test_${randomUUID().replaceAll('-', '')}`;
  await onDatabase(urlOf(port, 'postgres'), `create database ${name}`);
  return urlOf(port, name);
}

/** Empties one that was used, which is faster than a new one. */
export const emptyDatabase = (url: string): Promise<void> =>
  onDatabase(
    url,
    `do $$ declare name text; begin
       for name in select tablename from pg_tables where schemaname = 'public' and tablename not like 'kysely%' loop
         if name = 'counters' then
           delete from counters where counters.name not in ('definitions', 'events', 'events-dropped', 'keys');
           update counters set value = 0;
         else execute 'delete from ' || name; end if;
       end loop;
       alter sequence plans_number_seq restart; alter sequence audit_number_seq restart;
     end $$`,
  );

export async function onDatabase(url: string, sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => undefined);
  await client.connect();
  await client.query(sql).finally(() => client.end());
}

async function serverPort(): Promise<number> {
  const said: { port?: number; fault?: string } = JSON.parse(
    await text(connect(inject('postgresDoor'), '127.0.0.1')),
  );
  if (said.port === undefined) throw new Error(said.fault);
  return said.port;
}

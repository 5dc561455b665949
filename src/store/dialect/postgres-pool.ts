// Connections to PostgreSQL, none of which is used again after it failed: one on which an answer is still due, or whose
// other end is gone, would spoil the next question.

import type { PostgresPool, PostgresPoolClient } from 'kysely';
import pg from 'pg';
import type { Timeouts } from './database.ts';

/** int8 and numeric, which the driver gives as text. */
const NUMBERS_AS_TEXT: readonly number[] = [20, 1700];

export interface PoolOptions {
  readonly databaseUrl: string;
  readonly connections: number;
  readonly timeouts: Timeouts;
  /** Told of a connection that broke while nobody used it. */
  readonly onBroken: (fault: Error) => void;
}

export function createPostgresPool({
  databaseUrl,
  connections,
  timeouts,
  onBroken,
}: PoolOptions): PostgresPool {
  const pool = new pg.Pool({
    connectionString: databaseUrl,
    max: connections,
    application_name: 'pitward',
    connectionTimeoutMillis: timeouts.connectMs,
    // The server ends a slow statement first; this is for a server that says nothing any more.
    query_timeout: timeouts.statementMs + 500,
    keepAlive: true,
    types: { getTypeParser: parserOf as typeof pg.types.getTypeParser },
  });
  pool.on('error', onBroken);
  // A connection that breaks while in use also fails its query, which is where it is told.
  pool.on('connect', (client) => client.on('error', () => undefined));
  const wrapped = new WeakMap<pg.PoolClient, PostgresPoolClient>();
  return {
    options: pool.options,
    async connect() {
      const client = await pool.connect();
      const known = wrapped.get(client) ?? careful(client);
      wrapped.set(client, known);
      return known;
    },
    end: () => endWithin(pool, timeouts.connectMs),
  };
}

function careful(client: pg.PoolClient): PostgresPoolClient {
  let broken: unknown = null;
  const query = async (text: string, values: unknown[]): Promise<unknown> => {
    if (broken !== null) throw broken;
    try {
      return await client.query(text, values);
    } catch (fault) {
      if (!(fault instanceof pg.DatabaseError) || fault.severity !== 'ERROR') broken = fault;
      throw fault;
    }
  };
  return {
    query: query as PostgresPoolClient['query'],
    release: (destroy) => client.release(destroy || broken !== null),
  };
}

const parserOf = (type: number, format?: 'text' | 'binary'): unknown =>
  NUMBERS_AS_TEXT.includes(type) ? Number : pg.types.getTypeParser(type, format);

/** A server that is gone must not keep the program from ending. */
async function endWithin(pool: pg.Pool, ms: number): Promise<void> {
  const { promise, resolve } = Promise.withResolvers<void>();
  const timer = setTimeout(resolve, ms);
  await Promise.race([pool.end(), promise]);
  clearTimeout(timer);
}

// One server for all test files, started when the first of them asks. Files run in processes of their own, so they ask
// at a door: a loopback port that tells where the server is.

import { createServer } from 'node:net';
import type { TestProject } from 'vitest/node';
import { type PostgresServer, startPostgres } from './server.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Port at which to ask for the port of the server. */
    postgresDoor: number;
  }
}

let server: Promise<PostgresServer> | null = null;

const door = createServer((visitor) => {
  visitor.on('error', () => undefined);
  server ??= startPostgres();
  server.then(
    ({ port }) => visitor.end(JSON.stringify({ port })),
    (fault) => visitor.end(JSON.stringify({ fault: String(fault) })),
  );
});

export async function setup(project: TestProject): Promise<void> {
  await new Promise<void>((resolve) => door.listen(0, '127.0.0.1', resolve));
  const address = door.address();
  if (typeof address === 'object' && address) project.provide('postgresDoor', address.port);
}

export async function teardown(): Promise<void> {
  door.close();
  await (await server?.catch(() => null))?.remove();
}

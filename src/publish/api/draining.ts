// Ends the server without breaking an answer off: first say so, then take no more connections, answer what comes on those
// that are kept alive and close each with its answer, then finish what is under way, then close what is left.

import { Server } from 'node:net';
import type { FastifyInstance } from 'fastify';

/** Told to /readyz, so that a balancer sends nothing more, and to the front, which closes connections with their answers. */
export interface Draining {
  readonly begun: boolean;
  begin(): void;
}

export function createDraining(): Draining {
  let begun = false;
  return {
    get begun() {
      return begun;
    },
    begin() {
      begun = true;
    },
  };
}

/** What was under way when the end began closes its connection, too; what begins later the front sees to. */
export function closeWithAnswers(app: FastifyInstance, draining: Draining): void {
  app.addHook('onSend', (_request, reply, _payload, done) => {
    if (draining.begun) reply.header('connection', 'close');
    done();
  });
}

export interface DrainOptions {
  /** How long a balancer has to notice, before new connections are refused. */
  readonly noticeMs: number;
  /** How long a connection that is kept alive may still be used, to be told of its end by an answer. */
  readonly lingerMs: number;
  /** After this what is not answered yet is broken off. */
  readonly mostMs: number;
  wait(ms: number): Promise<void>;
}

/** Resolves once nothing is connected any more; true where everything was answered. */
export async function drain(
  app: FastifyInstance,
  draining: Draining,
  { noticeMs, lingerMs, mostMs, wait }: DrainOptions,
): Promise<boolean> {
  draining.begin();
  if (noticeMs > 0) await wait(noticeMs);
  await Promise.race([takeNoMore(app.server), wait(lingerMs)]);
  const closed = app.close().then(() => true);
  const late = wait(mostMs).then(() => false);
  const inTime = await Promise.race([closed, late]);
  if (!inTime) app.server.closeAllConnections();
  await closed;
  return inTime;
}

/** Resolves once nobody is connected any more. The HTTP server's own way would close idle connections at once. */
const takeNoMore = (server: Server): Promise<void> =>
  new Promise((resolve) => void Server.prototype.close.call(server, () => resolve()));

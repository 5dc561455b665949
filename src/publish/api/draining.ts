// Ends the server without breaking an answer off: first say so, then finish what is under way, then close what is left.

import type { FastifyInstance } from 'fastify';

/** Told to /readyz, so that a balancer sends nothing more. */
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

export interface DrainOptions {
  /** How long a balancer has to notice, before new connections are refused. */
  readonly noticeMs: number;
  /** After this what is not answered yet is broken off. */
  readonly mostMs: number;
  wait(ms: number): Promise<void>;
}

/** Resolves once nothing is connected any more; true where everything was answered. */
export async function drain(
  app: FastifyInstance,
  draining: Draining,
  { noticeMs, mostMs, wait }: DrainOptions,
): Promise<boolean> {
  draining.begin();
  if (noticeMs > 0) await wait(noticeMs);
  const closed = app.close().then(() => true);
  const late = wait(mostMs).then(() => false);
  const inTime = await Promise.race([closed, late]);
  if (!inTime) app.server.closeAllConnections();
  await closed;
  return inTime;
}

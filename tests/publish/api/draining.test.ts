// The end in good order: not ready at once, what is under way is answered, what hangs is broken off.

import fastify from 'fastify';
import { describe, expect, it } from 'vitest';
import { createDraining, drain } from '#publish/api/draining.ts';

/** A server with one route that answers when it is let, and a clock that the test turns. */
async function serving() {
  const app = fastify({ forceCloseConnections: 'idle' });
  const arrived = Promise.withResolvers<void>();
  const answer = Promise.withResolvers<string>();
  app.get('/slow', () => {
    arrived.resolve();
    return answer.promise;
  });
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  const late = Promise.withResolvers<void>();
  return { app, arrived, answer, late, url: `${address}/slow` };
}

describe('draining', () => {
  it('says so at once, and lets a request under way be answered', async () => {
    const { app, arrived, answer, late, url } = await serving();
    const draining = createDraining();
    const asked = fetch(url).then((response) => response.text());
    await arrived.promise;
    const ended = drain(app, draining, { noticeMs: 0, mostMs: 1000, wait: () => late.promise });
    expect(draining.begun).toBe(true);
    answer.resolve('whole');
    expect(await asked).toBe('whole');
    expect(await ended).toBe(true);
    await expect(fetch(url)).rejects.toThrow();
  });

  it('breaks off what has not ended after its time', async () => {
    const { app, arrived, answer, late, url } = await serving();
    const asked = fetch(url).then(
      () => 'answered',
      () => 'broken off',
    );
    await arrived.promise;
    const ended = drain(app, createDraining(), { noticeMs: 0, mostMs: 1000, wait: () => late.promise });
    late.resolve();
    expect(await asked).toBe('broken off');
    answer.resolve('too late');
    expect(await ended).toBe(false);
  });
});

// The end in good order: not ready at once, what is under way is answered, connections are closed with an answer, what hangs
// is broken off.

import { Agent, get } from 'node:http';
import fastify from 'fastify';
import { afterEach, describe, expect, it } from 'vitest';
import { closeWithAnswers, createDraining, drain } from '#publish/api/draining.ts';
import { createFront } from '#publish/api/front.ts';

const TIMES = { noticeMs: 0, lingerMs: 1, mostMs: 2 };

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

/** A server with a route that answers when it is let, and waits that end when the test says so. */
async function serving() {
  const draining = createDraining();
  const front = createFront(draining);
  const app = fastify({ forceCloseConnections: 'idle', serverFactory: (all) => front.serverFactory(all) });
  app.addHook('preClose', async () => front.shut());
  closeWithAnswers(app, draining);
  closing.push(() => app.close());
  const arrived = Promise.withResolvers<void>();
  const answer = Promise.withResolvers<string>();
  app.get('/slow', () => {
    arrived.resolve();
    return answer.promise;
  });
  app.get('/quick', async () => 'quick');
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  const waits = new Map<number, () => void>();
  const wait = (ms: number): Promise<void> => new Promise((resolve) => void waits.set(ms, resolve));
  return {
    ...{ app, draining, arrived, answer, address, wait },
    over: async (ms: number) => {
      while (!waits.has(ms)) await new Promise((resolve) => setImmediate(resolve));
      waits.get(ms)?.();
    },
  };
}

interface Got {
  readonly status: number;
  readonly text: string;
  readonly connection: string | undefined;
  readonly retryAfter: string | undefined;
  readonly isReused: boolean;
}

/** Over connections that are kept alive. */
function caller() {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  closing.push(() => agent.destroy());
  return (url: string): Promise<Got> =>
    new Promise((resolve, reject) => {
      const request = get(url, { agent }, async (response) => {
        let text = '';
        for await (const part of response.setEncoding('utf8')) text += part;
        const { connection, 'retry-after': retryAfter } = response.headers;
        const status = response.statusCode ?? 0;
        resolve({ status, text, connection, retryAfter, isReused: request.reusedSocket });
      });
      request.on('error', reject);
    });
}

describe('draining', () => {
  it('says so at once, and lets a request under way be answered', async () => {
    const { app, draining, arrived, answer, wait, address } = await serving();
    const asked = fetch(`${address}/slow`).then((response) => response.text());
    await arrived.promise;
    const ended = drain(app, draining, { ...TIMES, wait });
    expect(draining.begun).toBe(true);
    await expect(fetch(`${address}/quick`)).rejects.toThrow();
    answer.resolve('whole');
    expect(await asked).toBe('whole');
    expect(await ended).toBe(true);
  });

  it('goes on answering for as long as a balancer needs to notice, on new connections too', async () => {
    const { app, draining, wait, over, address } = await serving();
    const ended = drain(app, draining, { ...TIMES, noticeMs: 3, wait });
    expect(await caller()(`${address}/quick`)).toMatchObject({ status: 200, connection: 'close' });
    expect(await caller()(`${address}/quick`)).toMatchObject({ status: 200, connection: 'close' });
    await over(3);
    await expect(caller()(`${address}/quick`)).rejects.toMatchObject({ code: 'ECONNREFUSED' });
    expect(await ended).toBe(true);
  });

  it('answers what comes on a connection that is kept alive once more, and closes it with that', async () => {
    const { app, draining, wait, address } = await serving();
    const call = caller();
    expect(await call(`${address}/quick`)).toMatchObject({ status: 200, connection: 'keep-alive' });
    const ended = drain(app, draining, { ...TIMES, wait });
    const last = { status: 200, text: 'quick', connection: 'close', isReused: true };
    expect(await call(`${address}/quick`)).toMatchObject(last);
    // Nobody is connected any more: there is nothing to wait for.
    expect(await ended).toBe(true);
    await expect(call(`${address}/quick`)).rejects.toMatchObject({ code: 'ECONNREFUSED' });
  });

  it('closes connections that nobody uses, after their time', async () => {
    const { app, draining, wait, over, address } = await serving();
    const call = caller();
    await call(`${address}/quick`);
    const ended = drain(app, draining, { ...TIMES, wait });
    await over(1);
    expect(await ended).toBe(true);
  });

  it('breaks off what has not ended after its time', async () => {
    const { app, draining, arrived, answer, wait, over, address } = await serving();
    const asked = fetch(`${address}/slow`).then(
      () => 'answered',
      () => 'broken off',
    );
    await arrived.promise;
    const ended = drain(app, draining, { ...TIMES, wait });
    await over(1);
    await over(2);
    expect(await asked).toBe('broken off');
    answer.resolve('too late');
    expect(await ended).toBe(false);
  });
});

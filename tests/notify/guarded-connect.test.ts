// Published reports repeated here: genblaze PR#112 (a name that leads elsewhere the second time), Capgo PR#2200 (a
// redirect to the inside). A custom look-up is not asked for literal addresses in undici; here they are judged too.

import { createServer, type Server, type Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { httpCaller } from '#notify/http-call.ts';
import type { OutgoingPolicy } from '#notify/outgoing-url.ts';
import { never, type TestDeps, testDeps } from './deps.ts';
import { answerWith, LOOPBACK, type Peer, peer } from './peer.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

const kept = <T extends { close(): unknown }>(one: T): T => {
  open.push(one);
  return one;
};

const LIMITS = { connectMs: 3000, wholeMs: 8000, mostBytes: 1000, keptConnections: 0 };

const get = (url: string, policy: OutgoingPolicy, deps: TestDeps) =>
  kept(httpCaller(policy, LIMITS, deps)).call(
    { url: new URL(url), method: 'GET', headers: {}, body: null },
    never(),
  );

const ok = (): Promise<Peer> => peer((response) => answerWith(response, 200, 'inside')).then(kept);

/** Takes connections and says nothing. */
async function silent(): Promise<{ port: number; close(): Promise<void> }> {
  const sockets = new Set<Socket>();
  const server: Server = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const address = server.address();
  return kept({
    port: typeof address === 'object' && address !== null ? address.port : 0,
    close: () =>
      new Promise((resolve) => {
        for (const socket of sockets) socket.destroy();
        server.close(() => resolve());
      }),
  });
}

describe('a connection', () => {
  it.each([
    'http://127.0.0.1:PORT/',
    'http://2130706433:PORT/',
    'http://0x7f.1:PORT/',
    'http://localhost:PORT/',
  ])('%s never reaches a machine that may not be called, though it is there', async (template) => {
    const { port, connections } = await ok();
    const result = await get(
      template.replace('PORT', String(port)),
      { allow: ['10.0.0.0/8'], ports: [443, port] },
      testDeps(),
    );
    expect(result).toMatchObject({ kind: 'fault', reason: 'forbidden-address', begun: false });
    expect(connections()).toBe(0);
  });

  it('is refused where only one of the addresses of a name may not be called', async () => {
    const { port, connections } = await ok();
    const deps = testDeps({ resolve: async () => ['127.0.0.1', '10.0.0.1'] });
    const result = await get(`http://dispatch.example.test:${port}/`, LOOPBACK, deps);
    expect(result).toMatchObject({ kind: 'fault', reason: 'forbidden-address' });
    expect(connections()).toBe(0);
  });

  it('goes to the address that was judged, whatever the name leads to a moment later', async () => {
    const { port } = await ok();
    const answers = [['127.0.0.1'], ['169.254.169.254']];
    const deps = testDeps({ resolve: async () => answers.shift() ?? [] });
    const first = await get(`http://dispatch.example.test:${port}/`, LOOPBACK, deps);
    expect(first).toMatchObject({ kind: 'answer', status: 200 });
    expect(deps.resolved).toEqual(['dispatch.example.test']);
    const second = await get(`http://dispatch.example.test:${port}/`, LOOPBACK, deps);
    expect(second).toMatchObject({ kind: 'fault', reason: 'forbidden-address' });
  });

  it('tries the next address where the first does not answer', async () => {
    const { port } = await ok();
    const deps = testDeps({ resolve: async () => ['127.0.0.2', '127.0.0.1'] });
    expect(await get(`http://dispatch.example.test:${port}/`, LOOPBACK, deps)).toMatchObject({ status: 200 });
  });

  it('is not made where the name is unknown or leads nowhere', async () => {
    const unknown = testDeps({
      resolve: () => Promise.reject(Object.assign(new Error('no'), { code: 'ENOTFOUND' })),
    });
    expect(await get('https://nowhere.example.test/', LOOPBACK, unknown)).toMatchObject({
      reason: 'unreachable',
      begun: false,
      detail: 'the name was not resolved (ENOTFOUND)',
    });
    expect(
      await get('https://nowhere.example.test/', LOOPBACK, testDeps({ resolve: async () => [] })),
    ).toMatchObject({
      reason: 'unreachable',
    });
  });

  it('ends in time where the name is never resolved, and where TLS never comes about', async () => {
    const stuck = testDeps({ resolve: () => new Promise(() => undefined) });
    const first = get('https://dispatch.example.test/', LOOPBACK, stuck);
    await stuck.clock.untilSet(LIMITS.connectMs);
    stuck.clock.advance(LIMITS.connectMs);
    expect(await first).toMatchObject({ reason: 'timeout', begun: false });

    const { port } = await silent();
    const deps = testDeps();
    const second = get(`https://127.0.0.1:${port}/`, LOOPBACK, deps);
    await deps.clock.untilSet(LIMITS.connectMs);
    await new Promise<void>((resolve) => setImmediate(resolve));
    deps.clock.advance(LIMITS.connectMs);
    expect(await second).toMatchObject({ reason: 'timeout', begun: false });
  });
});

describe('TLS', () => {
  it('is the certificate of the name, though the connection goes to an address', async () => {
    const secure = kept(await peer((response) => answerWith(response, 200), 'https'));
    const at = (host: string) => get(`https://${host}:${secure.port}/`, LOOPBACK, testDeps());
    expect(await at('dispatch.example.test')).toMatchObject({ kind: 'answer', status: 200 });
    expect(await at('127.0.0.1')).toMatchObject({ kind: 'answer', status: 200 });
    expect(await at('dispatch.elsewhere.test')).toMatchObject({
      reason: 'unreachable',
      detail: 'no connection (ERR_TLS_CERT_ALTNAME_INVALID)',
    });
  });

  it('of an authority that nobody trusts is refused, and nothing is sent', async () => {
    const secure = kept(await peer((response) => answerWith(response, 200), 'https'));
    const result = await get(`https://127.0.0.1:${secure.port}/`, LOOPBACK, testDeps({ trust: null }));
    expect(result).toMatchObject({ reason: 'unreachable', begun: false });
    expect(secure.asked).toEqual([]);
  });
});

// The stream of events as an independent reader of server-sent events takes it (npm `eventsource`, which follows WHATWG HTML
// 9.2): it dies and returns, the line is cut, and nothing is missed and nothing comes twice.

import { EventSource } from 'eventsource';
import { expect, it, onTestFinished } from 'vitest';
import { DAY_MS } from '#core/units/time.ts';
import { eventOf } from '../../builders/store.ts';
import { startKeyed } from '../keyed.ts';
import { startForTest, TEN } from './start-burning.ts';

const EVENTS = 1000;
const KILLS = 20;
const CHANGED = { data: { plan: 'own/north-block@1', cause: 'forecast', changes: [] } };

it(`${EVENTS} events over ${KILLS} deaths: each once, in order, with the bytes of the poll route`, async () => {
  const demo = await startForTest(TEN);
  const address = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
  onTestFinished(demo.service.eventStreams.start());
  const begin = (await demo.store.events.ends()).last;
  const got: { id: string; data: string }[] = [];
  const all = Promise.withResolvers<void>();
  let [source, kills]: [EventSource | null, number] = [null, 0];
  const lives = (lastId: string): void => {
    const own = new EventSource(`${address}/v1/events/stream?after=${lastId}`, { fetch: soon });
    source = own;
    own.addEventListener('message', ({ lastEventId: id, data }) => {
      // What comes after its death it cannot have heard.
      if (source !== own) return;
      got.push({ id, data });
      if (got.length === EVENTS) return all.resolve();
      if (got.length % (EVENTS / KILLS - 3) !== 0 || kills >= KILLS) return;
      kills += 1;
      if (kills % 2 === 0) return demo.service.app.server.closeAllConnections();
      own.close();
      lives(id);
    });
  };
  lives(String(begin));
  for (let made = 0; made < EVENTS; made += 4)
    await demo.store.commit({ events: Array.from({ length: 4 }, () => eventOf('own/north-block', CHANGED)) });
  await all.promise;
  (source as EventSource | null)?.close();
  expect(kills).toBe(KILLS);
  const { body } = await demo.service.app.inject({ url: `/v1/events?after=${begin}&most=1000` });
  expect(body).toContain(`"events":[${got.map(({ data }) => data).join(',')}]`);
  expect(got.map(({ id }) => Number(id))).toEqual(Array.from({ length: EVENTS }, (_, i) => begin + i + 1));
});

it('is told of a gap under its name, and after a refusal tries no more', async () => {
  const demo = await startKeyed(TEN);
  onTestFinished(demo.close);
  const key = await demo.mint();
  await demo.store.commit({ events: [eventOf('own/north-block', { ...CHANGED, atMs: demo.clock.nowMs })] });
  const { last } = await demo.store.events.ends();
  demo.clock.nowMs += 500 * DAY_MS;
  const kept = 2000 * DAY_MS;
  await demo.store.care.expire({
    ...{ plansMs: 400 * DAY_MS, claimsMs: DAY_MS, repliesMs: DAY_MS },
    ...{ burnsMs: kept, observationsMs: kept, auditMs: kept },
  });
  const address = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
  const withKey: typeof soon = (url, init) =>
    soon(url, { ...init, headers: { ...init.headers, authorization: `Bearer ${key}` } });
  const source = new EventSource(`${address}/v1/events/stream?after=0`, { fetch: withKey });
  onTestFinished(() => source.close());
  const gap = await new Promise<MessageEvent>((resolve) => source.addEventListener('gap', resolve));
  expect([gap.lastEventId, JSON.parse(gap.data)]).toEqual([
    String(last),
    { after: '0', missingUpTo: String(last) },
  ]);
  const ended = new Promise<MessageEvent>((resolve) => source.addEventListener('end', resolve));
  const refused = new Promise<{ code?: number | undefined }>((resolve) =>
    source.addEventListener('error', (error) => error.code !== undefined && resolve(error)),
  );
  const [held] = await demo.store.keys.all();
  const prefix = held?.prefix ?? '';
  await demo.store.keys.revoke(prefix, demo.clock.nowMs, {
    ...{ atMs: demo.clock.nowMs, organisation: 'own', who: 'test', what: 'key-revoked' },
    ...{ subject: prefix, detail: null },
  });
  await demo.service.mirror.sync();
  await demo.service.eventStreams.tick();
  expect(JSON.parse((await ended).data)).toEqual({ reason: 'key' });
  expect((await refused).code).toBe(401);
  expect(source.readyState).toBe(EventSource.CLOSED);
});

it('takes Last-Event-ID before `after`, and refuses what is no position', async () => {
  const demo = await startForTest(TEN);
  await demo.store.commit({ events: [eventOf('own/north-block', CHANGED)] });
  const { last } = await demo.store.events.ends();
  const ask = (id: string, after = '') =>
    demo.service.app.inject({
      ...{ url: `/v1/events/stream${after}`, payloadAsStream: true },
      headers: { 'last-event-id': id },
    });
  const begins = async (id: string, after: string): Promise<string> => {
    const stream = (await ask(id, after)).stream();
    for await (const part of stream) {
      stream.destroy();
      return String(part);
    }
    return '';
  };
  expect(await begins(String(last), '?after=0')).toContain(`id: ${last}\nevent: position\n`);
  expect(await begins('', '?after=1')).toContain('id: 1\nevent: position\n');
  for (const id of ['x', '-1', '1 2', String(last + 1)]) expect((await ask(id)).statusCode).toBe(400);
});

/** Asks as the reader does, without its pause before it comes again. */
async function soon(
  url: string | URL,
  init: { headers: Record<string, string>; signal: AbortSignal | undefined },
): Promise<Response> {
  const { signal, headers } = init;
  const response = await fetch(url, { headers, ...(signal ? { signal } : {}) });
  const { body, status } = response;
  const hastened = body && ReadableStream.from(hasten(body));
  const answer = new Response(hastened as never, { status, headers: response.headers });
  return Object.defineProperty(answer, 'url', { value: response.url });
}

async function* hasten(body: ReadableStream<Uint8Array>): AsyncGenerator<Uint8Array> {
  for await (const part of body)
    yield Buffer.from(Buffer.from(part).toString('latin1').replace('retry: 3000', 'retry: 1'), 'latin1');
}

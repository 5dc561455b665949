// The stream of what stands at a site: at once, at each change whoever made it, and an end to whoever does not read.

import { get, type IncomingMessage } from 'node:http';
import { afterEach, describe, expect, it, onTestFinished } from 'vitest';
import { createNowStreams } from '#publish/api/now-streams.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { freshDatabase } from '../../postgres/fresh-database.ts';
import { postgresPrograms } from '../../postgres/server.ts';
import { startGateway } from './gateway.ts';
import { invented } from './invented-listener.ts';
import { keptIn } from './kept-in.ts';
import { TEN, TURNED } from './start-burning.ts';
import { SITE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

const KEY = 'own/north-block';
const [SECOND, MINUTE] = [1000, 60_000];

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

/** A demo whose clocks move together, by the test alone. */
async function streaming(...given: Parameters<typeof startWatchedDemo>) {
  const steady = { ms: 0 };
  const [now, change, others] = given;
  const demo = await startWatchedDemo(now, change, { ...others, steadyMs: () => steady.ms });
  closing.push(demo.close);
  const passes = async (ms: number): Promise<void> => {
    steady.ms += ms;
    demo.clock.nowMs += ms;
    await demo.service.mirror.sync();
    await demo.service.streams.tick();
  };
  return { ...demo, steady, passes };
}

/** Somebody who listens: what came, and what became of the connection. */
function ear(waitingBytes = 0) {
  const listening = invented(waitingBytes);
  const messages = () =>
    listening.heard.flatMap((text) => {
      const [, id, event, data = ''] = /id: (\S+)\nevent: (\w+)\ndata: (.*)\n\n/.exec(text) ?? [];
      return id === undefined ? [] : [{ id, event, answer: JSON.parse(data) as NowAnswer }];
    });
  return { ...listening, messages };
}

const listening = { siteKey: KEY, query: {}, who: 'key', isKnown: () => true };

describe('the stream', () => {
  it('begins with what the API says at that moment', async () => {
    const demo = await streaming(TEN);
    await demo.reads();
    const { listener, heard, messages } = ear();
    await demo.service.streams.add(listening, () => listener);
    expect(heard[0]).toMatch(/^retry: 3000\n\nid: /);
    const { body } = await demo.api('GET', `${SITE}/now`);
    expect(messages().map(({ answer }) => answer)).toEqual([body]);
    expect(messages()[0]?.answer).toMatchObject({ asOf: expect.any(String), goodUntil: expect.any(String) });
  });

  it('tells each change at the next tick, in the language asked for, and nothing where nothing changed', async () => {
    const demo = await streaming(TEN);
    await demo.reads();
    const [english, spanish] = [ear(), ear()];
    await demo.service.streams.add(listening, () => english.listener);
    await demo.service.streams.add({ ...listening, query: { lang: 'es' } }, () => spanish.listener);
    await demo.passes(SECOND);
    expect(english.messages()).toHaveLength(1);
    await demo.lights();
    await demo.passes(SECOND);
    expect(english.messages().map(({ answer }) => answer.burn?.state)).toEqual([undefined, 'lit']);
    await demo.passes(5 * MINUTE);
    await demo.reads(TURNED);
    await demo.passes(SECOND);
    expect(english.messages().at(-1)?.answer).toMatchObject({ verdict: 'stop' });
    expect(spanish.messages().at(-1)?.answer).toMatchObject({
      verdict: 'stop',
      text: expect.stringMatching(/humo/i),
    });
  });

  it('tells what the clock alone changes, and once a minute that it still holds, under the same id', async () => {
    const demo = await streaming('2026-04-14T15:00:00Z');
    const { body } = await demo.api('GET', `${SITE}/now`);
    const lightUpMs = Date.parse(String(body['lightUp']));
    await demo.passes(lightUpMs - demo.clock.nowMs - MINUTE - 5 * SECOND);
    await demo.service.keeper.pullAll();
    await demo.reads();
    const { listener, messages } = ear();
    await demo.service.streams.add(listening, () => listener);
    await demo.passes(MINUTE);
    expect(messages().map(({ answer }) => answer.verdict)).toEqual(['hold', 'hold']);
    // Its go begins, and nobody wrote anything.
    for (let i = 0; i < 6; i += 1) await demo.passes(SECOND);
    expect(messages().at(-1)?.answer.verdict).toBe('go');
    const told = messages().length;
    await demo.passes(MINUTE);
    const [before, after] = messages().slice(told - 1);
    expect(after?.id).toBe(before?.id);
    expect(Date.parse(after?.answer.asOf ?? '')).toBeGreaterThanOrEqual(
      Date.parse(before?.answer.asOf ?? '') + MINUTE,
    );
  });

  it('comments every 15 s while it has nothing to tell', async () => {
    const demo = await streaming(TEN);
    const { listener, heard } = ear();
    await demo.service.streams.add(listening, () => listener);
    await demo.passes(14 * SECOND);
    expect(heard).toHaveLength(1);
    await demo.passes(SECOND);
    expect(heard.slice(1)).toEqual([':\n\n']);
  });

  it('says once that there is no answer where the store gives none, and what stands when it does again', async () => {
    const demo = await streaming(TEN);
    const streams = createNowStreams({
      desk: demo.service.desk,
      steadyMs: () => demo.steady.ms,
      watching: {
        say: demo.service.watching.say,
        desk: {
          ...demo.service.watching.desk(demo.service.desk),
          versions: () => (isDown ? Promise.reject(new Error('down')) : Promise.resolve(new Map())),
          now: (key) =>
            isDown
              ? Promise.reject(new Error('no store at db.inside.example'))
              : demo.service.watching.desk(demo.service.desk).now(key),
        },
      },
    });
    let isDown = false;
    const { listener, messages } = ear();
    await streams.add(listening, () => listener);
    isDown = true;
    for (let i = 0; i < 3; i += 1) {
      demo.steady.ms += SECOND;
      await streams.tick();
    }
    expect(messages().map(({ event }) => event)).toEqual(['now', 'fault']);
    expect(JSON.stringify(messages())).not.toContain('inside.example');
    isDown = false;
    demo.steady.ms += SECOND;
    await streams.tick();
    expect(messages().map(({ event }) => event)).toEqual(['now', 'fault', 'now']);
  });

  it('drops who leaves much untaken, or a little for long, and ends after ten minutes so that the key is asked for again', async () => {
    const demo = await streaming(TEN);
    const [much, little, reading] = [ear(65_537), ear(10), ear()];
    for (const { listener } of [much, little, reading])
      await demo.service.streams.add(listening, () => listener);
    await demo.passes(SECOND);
    expect([much.heard.at(-1), little.heard.at(-1)]).toEqual(['DROPPED', expect.stringContaining('id: ')]);
    await demo.passes(30 * SECOND);
    expect(little.heard.at(-1)).toBe('DROPPED');
    expect(demo.service.streams.count()).toBe(1);
    await demo.passes(10 * MINUTE);
    expect(reading.heard.at(-1)).toBe('END');
    expect(demo.service.streams.count()).toBe(0);
  });

  it('ends at the next tick for a key that was revoked, and tells it nothing more', async () => {
    const demo = await streaming(TEN);
    const { heard, listener } = ear();
    let isKnown = true;
    await demo.service.streams.add({ ...listening, isKnown: () => isKnown }, () => listener);
    isKnown = false;
    await demo.reads(TURNED);
    await demo.passes(SECOND);
    expect([heard.slice(1), demo.service.streams.count()]).toEqual([['END'], 0]);
  });

  it('has room for so many of one key and so many in all, and gives the room back', async () => {
    const demo = await streaming(TEN);
    const streams = createNowStreams({
      watching: { desk: demo.service.watching.desk(demo.service.desk), say: demo.service.watching.say },
      desk: demo.service.desk,
      steadyMs: () => 0,
      mostPerWho: 2,
      mostInAll: 3,
    });
    const add = (who: string) => streams.add({ ...listening, who }, () => ear().listener);
    const [first] = await Promise.all([add('a'), add('a')]);
    await expect(add('a')).rejects.toMatchObject({ code: 'too_many_requests', facts: { retryAfterS: 30 } });
    await add('b');
    await expect(add('c')).rejects.toMatchObject({ code: 'overloaded', facts: { retryAfterS: 30 } });
    first.remove();
    first.remove();
    await add('c');
    await expect(add('d')).rejects.toMatchObject({ code: 'overloaded' });
  });
});

describe('over HTTP', () => {
  const listen = async (demo: WatchedDemo, path = `${SITE}/now/stream`): Promise<IncomingMessage> => {
    const address = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
    return new Promise((resolve, reject) => void get(address + path, resolve).on('error', reject));
  };

  it('comes as an event stream that nothing may keep, and ends when the service does', async () => {
    const demo = await startWatchedDemo(TEN);
    onTestFinished(demo.close);
    const response = await listen(demo, `${SITE}/now/stream?lang=es`);
    expect(response.headers).toMatchObject({
      'content-type': 'text/event-stream',
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
    });
    let text = '';
    response.setEncoding('utf8');
    const first = Promise.withResolvers<void>();
    const ended = new Promise<void>((resolve) => response.on('end', resolve));
    response.on('data', (part: string) => {
      text += part;
      if (text.includes('\n\ndata') || text.includes('"caution"')) first.resolve();
    });
    await first.promise;
    expect(text).toContain('event: now\ndata: {"site":"north-block"');
    await demo.service.app.close();
    await ended;
    expect(demo.service.streams.count()).toBe(0);
  });

  it('forgets who went away, and tells who asks wrongly as any other route does', async () => {
    const demo = await startWatchedDemo(TEN);
    onTestFinished(demo.close);
    const response = await listen(demo);
    expect(demo.service.streams.count()).toBe(1);
    response.destroy();
    while (demo.service.streams.count() > 0) await new Promise((resolve) => setImmediate(resolve));
    for (const [url, status] of [
      ['/v1/sites/nowhere/now/stream', 404],
      [`${SITE}/now/stream?lang=fr`, 400],
    ] as const) {
      const { statusCode, headers } = await demo.service.app.inject({ url });
      expect([statusCode, headers['content-type']]).toEqual([
        status,
        'application/problem+json; charset=utf-8',
      ]);
    }
  });
});

const noPostgres = postgresPrograms() === null;
if (noPostgres) console.log('The test of a stream beside another service needs PostgreSQL: skipped.');

describe.skipIf(noPostgres)('of two services over one database', () => {
  it('tells at the one what was tapped and read at the other', async () => {
    const gateway = await startGateway();
    closing.push(gateway.close);
    const openKept = keptIn({ databaseUrl: await freshDatabase() });
    const one = await streaming(TEN, undefined, { gateway, openKept });
    const other = await streaming(TEN, undefined, { gateway, openKept });
    const { listener, messages } = ear();
    await one.service.streams.add(listening, () => listener);
    await other.reads();
    await other.lights();
    await one.passes(SECOND);
    expect(messages().at(-1)?.answer).toMatchObject({
      burn: { state: 'lit' },
      observation: { station: 'mast' },
    });
  });
});

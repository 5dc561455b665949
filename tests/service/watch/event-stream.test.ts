// Whoever follows the log of events: each once and in order, a hole never silent, and nobody kept who does not read.

import { afterEach, describe, expect, it } from 'vitest';
import { DAY_MS, MINUTE_MS } from '#core/units/time.ts';
import { createEventStreams, type EventStreams, type Following } from '#publish/api/event-streams.ts';
import { eventAnswers } from '#publish/api/events.ts';
import { thisMachine } from '#publish/viewer.ts';
import { createEventDesk } from '#service/event-desk.ts';
import { eventOf } from '../../builders/store.ts';
import { freshDatabase } from '../../postgres/fresh-database.ts';
import { postgresPrograms } from '../../postgres/server.ts';
import { startGateway } from './gateway.ts';
import { invented, type Message, messagesIn } from './invented-listener.ts';
import { keptIn } from './kept-in.ts';
import { TEN } from './start-burning.ts';
import { startWatchedDemo } from './watched-demo.ts';

const SECOND = 1000;
const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const CHANGED = { data: { plan: 'own/north-block@1', cause: 'forecast', changes: [] } };

const ALL: Following = {
  viewer: thisMachine('own'),
  ...{ siteKey: null, kinds: null, reader: {}, after: 0, who: 'key', isKnown: () => true },
};

async function following(...given: Parameters<typeof startWatchedDemo>) {
  const demo = await startWatchedDemo(...given);
  closing.push(demo.close);
  const steady = { ms: 0 };
  const make = (others: Partial<Parameters<typeof createEventStreams>[0]> = {}): EventStreams =>
    createEventStreams({
      events: createEventDesk(demo.store.events),
      answers: (viewer, reader, events) =>
        eventAnswers({ desk: demo.service.desk, say: demo.service.watching.say }, viewer, reader, events),
      steadyMs: () => steady.ms,
      ...others,
    });
  const streams = make();
  const passes = async (ms: number, of = streams): Promise<void> => {
    steady.ms += ms;
    await of.tick();
  };
  const follow = async (how: Partial<Following> = {}, of = streams) => {
    const ear = invented();
    const { remove } = await of.add({ ...ALL, ...how }, () => ear.listener);
    return { ...ear, remove, messages: () => messagesIn(ear.heard) };
  };
  const happens = (count = 1) =>
    demo.store.commit({ events: Array.from({ length: count }, () => eventOf('own/north-block', CHANGED)) });
  const polled = async (query = '') => (await demo.api('GET', `/v1/events?most=1000${query}`)).body;
  return { ...demo, steady, make, streams, passes, follow, happens, polled };
}

const named = (messages: readonly Message[]) => messages.filter(({ event }) => event !== 'message');

describe('what it tells', () => {
  it('are the bytes of the poll route, each under its position, from a position on', async () => {
    const demo = await following(TEN);
    await demo.reads();
    await demo.lights();
    await demo.happens();
    const whole = await demo.follow();
    await demo.passes(0);
    const { body } = await demo.service.app.inject({ url: '/v1/events?most=1000' });
    const told = whole.messages().filter(({ event }) => event === 'message');
    expect(told.length).toBeGreaterThan(2);
    expect(body).toContain(`"events":[${told.map(({ data }) => data).join(',')}]`);
    expect(told.map(({ id }) => id)).toEqual(told.map(({ data }) => JSON.parse(data).id));
    const rest = await demo.follow({ after: 2 });
    const spanish = await demo.follow({ kinds: ['burn-lit'], reader: { lang: 'es' } });
    await demo.passes(0);
    expect(rest.messages().slice(1)).toEqual(told.filter(({ id }) => Number(id) > 2));
    expect(spanish.messages().slice(1)).toMatchObject([{ data: expect.stringContaining('Encendida') }]);
  });

  it('is told at once when this process adds to the log, and at the next tick otherwise', async () => {
    const demo = await following(TEN);
    const stop = demo.streams.start();
    const { messages } = await demo.follow({ after: null });
    const before = messages();
    expect(before).toMatchObject([{ event: 'position' }]);
    const seen = Promise.withResolvers<void>();
    const other = invented();
    await demo.streams.add({ ...ALL, after: null }, () => ({
      ...other.listener,
      write: (text) => /^id: \d+\ndata/.test(text) && seen.resolve(),
    }));
    await demo.happens();
    await seen.promise;
    stop();
    await demo.happens();
    await demo.passes(0);
    expect(messages().slice(1)).toHaveLength(2);
  });

  it('says how far it has looked where nothing of it was asked for, and else only that it lives', async () => {
    const demo = await following(TEN);
    const few = await demo.follow({ kinds: ['order-added'], after: null });
    await demo.happens(3);
    await demo.passes(14 * SECOND);
    expect(few.heard).toHaveLength(1);
    await demo.passes(SECOND);
    const last = String((await demo.polled())['next']);
    expect(few.messages().slice(1)).toEqual([
      { id: last, event: 'position', data: JSON.stringify({ position: last }) },
    ]);
    await demo.passes(15 * SECOND);
    expect(few.heard.at(-1)).toBe(':\n\n');
  });

  it('tells the hole that retention has left, and goes on behind it', async () => {
    const demo = await following(TEN);
    await demo.happens(3);
    const last = String((await demo.polled())['next']);
    demo.pass((500 * DAY_MS) / MINUTE_MS);
    const kept = 2000 * DAY_MS;
    await demo.store.care.expire({
      ...{ plansMs: 400 * DAY_MS, claimsMs: DAY_MS, repliesMs: DAY_MS },
      ...{ burnsMs: kept, observationsMs: kept, auditMs: kept },
    });
    const { messages } = await demo.follow({ after: 1 });
    await demo.happens();
    await demo.passes(0);
    expect(messages().slice(1, 2)).toEqual([
      { id: last, event: 'gap', data: JSON.stringify({ after: '1', missingUpTo: last }) },
    ]);
    expect(messages().slice(2)).toMatchObject([{ event: 'message', id: String(Number(last) + 1) }]);
  });

  it('refuses a position that is not there yet, before anything is sent', async () => {
    const demo = await following(TEN);
    await expect(demo.follow({ after: 9999 })).rejects.toMatchObject({ code: 'bad_query' });
    expect(demo.streams.count()).toBe(0);
  });

  it('says once that the log cannot be read, loses nothing of it, and says when it can be again', async () => {
    const demo = await following(TEN);
    const desk = createEventDesk(demo.store.events);
    let isDown = false;
    const last = () => (isDown ? Promise.reject(new Error('no store at db.inside.example')) : desk.last());
    const streams = demo.make({ events: { ...desk, last } });
    const { messages } = await demo.follow({ after: null }, streams);
    isDown = true;
    await demo.happens();
    for (let i = 0; i < 3; i += 1) await demo.passes(SECOND, streams);
    isDown = false;
    await demo.passes(SECOND, streams);
    expect(messages().map(({ event }) => event)).toEqual(['position', 'fault', 'position', 'message']);
    expect(JSON.stringify(messages())).not.toContain('inside.example');
  });
});

describe('whoever', () => {
  it('reads slowly is told no more than a bound, all of it in the end, each once', async () => {
    const demo = await following(TEN);
    const slow = await demo.follow({ after: null });
    const before = Number((await demo.polled())['next']);
    slow.listener.write = (text) => {
      slow.heard.push(text);
      slow.listener.waitingBytes += text.length;
    };
    await demo.happens(300);
    await demo.passes(SECOND);
    const bytes = slow.heard.join('').length;
    expect(bytes).toBeGreaterThan(65_536);
    expect(bytes).toBeLessThan(65_536 + 4096);
    for (let i = 0; i < 100 && slow.messages().length < 301; i += 1) {
      slow.takes();
      await demo.passes(0);
    }
    const ids = slow
      .messages()
      .slice(1)
      .map(({ id }) => Number(id));
    expect(ids).toEqual(Array.from({ length: 300 }, (_, i) => before + i + 1));
  });

  it('does not read at all is told so and let go after 30 s, and broken off if that is not taken either', async () => {
    const demo = await following(TEN);
    const stuck = await demo.follow();
    stuck.listener.waitingBytes = 10;
    await demo.passes(0);
    await demo.passes(29 * SECOND);
    expect(demo.streams.count()).toBe(1);
    await demo.passes(SECOND);
    expect(demo.streams.count()).toBe(0);
    expect(stuck.messages().at(-1)).toEqual({ id: null, event: 'end', data: '{"reason":"slow"}' });
    await demo.passes(29 * SECOND);
    expect(stuck.heard.at(-1)).toBe('END');
    await demo.passes(SECOND);
    expect(stuck.heard.at(-1)).toBe('DROPPED');
  });

  it('has a key that has ended hears that, and no event', async () => {
    const demo = await following(TEN);
    let isKnown = true;
    const { messages, heard } = await demo.follow({ after: null, isKnown: () => isKnown });
    const stop = demo.streams.start();
    isKnown = false;
    await demo.happens();
    await demo.passes(0);
    stop();
    expect(messages().slice(1)).toMatchObject([{ event: 'end', data: '{"reason":"key"}' }]);
    expect([heard.at(-1), demo.streams.count()]).toEqual(['END', 0]);
  });

  it('listens while the service drains, or for ten minutes, is told to come again', async () => {
    const demo = await following(TEN);
    let isDraining = false;
    const streams = demo.make({ isDraining: () => isDraining });
    const old = await demo.follow({}, streams);
    await demo.passes(600 * SECOND, streams);
    expect(named(old.messages()).at(-1)?.data).toBe('{"reason":"renew"}');
    const young = await demo.follow({}, streams);
    isDraining = true;
    await demo.passes(0, streams);
    expect(named(young.messages()).at(-1)?.data).toBe('{"reason":"draining"}');
  });

  it('has one of so many seats of a key and so many in all, and gives it back', async () => {
    const demo = await following(TEN);
    const streams = demo.make({ mostPerWho: 2, mostInAll: 3 });
    const [first] = await Promise.all([
      demo.follow({ who: 'a' }, streams),
      demo.follow({ who: 'a' }, streams),
    ]);
    await expect(demo.follow({ who: 'a' }, streams)).rejects.toMatchObject({ code: 'too_many_requests' });
    await demo.follow({ who: 'b' }, streams);
    await expect(demo.follow({ who: 'c' }, streams)).rejects.toMatchObject({ code: 'overloaded' });
    first.remove();
    first.remove();
    await demo.follow({ who: 'c' }, streams);
    await expect(demo.follow({ who: 'd' }, streams)).rejects.toMatchObject({ code: 'overloaded' });
  });
});

const noPostgres = postgresPrograms() === null;
if (noPostgres) console.log('The test of a log that another service adds to needs PostgreSQL: skipped.');

it.skipIf(noPostgres)('what another process adds to the same database is told at the next tick', async () => {
  const gateway = await startGateway();
  closing.push(gateway.close);
  const openKept = keptIn({ databaseUrl: await freshDatabase() });
  const one = await following(TEN, undefined, { gateway, openKept });
  const other = await following(TEN, undefined, { gateway, openKept });
  const { messages } = await one.follow({ after: null });
  await Promise.all([other.happens(5), one.happens(5), other.happens(5)]);
  await one.passes(SECOND);
  const ids = messages()
    .slice(1)
    .map(({ id }) => Number(id));
  const { events } = (await other.polled()) as { events: { id: string }[] };
  expect(ids).toEqual(events.slice(-15).map(({ id }) => Number(id)));
});

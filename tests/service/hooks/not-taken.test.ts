// Webhooks that are not taken: again later, left out, or no more.

import type { ServerResponse } from 'node:http';
import { expect, it } from 'vitest';
import { FAILING_FOR_MS, MOST_REFUSALS } from '#core/events/hook-step.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { answerWith } from '../../notify/peer.ts';
import { onSqlite } from '../../store/on-each-store.ts';
import { MOVED, status, useReceivers, wait } from './receivers.ts';

onSqlite('webhooks where they are not taken', ({ open }) => {
  const { begin, receiving } = useReceivers({ open });

  it.each([
    ['500', status(500), 'unavailable'],
    ['a redirect, which is not followed', status(302, { location: 'http://127.0.0.1:1/' }), 'redirected'],
    ['404', status(404), 'refused'],
    ['401', status(401), 'auth'],
    ['nothing: it hangs up', (response: ServerResponse) => void response.destroy(), 'unreachable'],
  ])('are sent again after %s, under the same id, and go on from there', async (_, answer, reason) => {
    const hooked = await begin();
    const receiver = await receiving(answer);
    const id = await hooked.add(receiver.url);
    const process = hooked.start('w');
    await hooked.write({}, {});
    await process.all();
    const failed = await hooked.one(id);
    expect(failed.standing).toMatchObject({
      position: 0,
      failures: 1,
      nextAtMs: hooked.clock.nowMs() + wait(1),
    });
    hooked.clock.advance(wait(1) - 1);
    await process.all();
    expect((await hooked.one(id)).attempts).toBe(1);
    hooked.clock.advance(1);
    await process.all();
    receiver.answer = null;
    hooked.clock.advance(wait(2));
    await process.all();
    const attempts = await hooked.store.hooks.attempts(id, { before: null, most: 9 });
    expect(attempts.map(({ webhookId, reason: why }) => [webhookId, why])).toEqual([
      ['2', null],
      ['1', null],
      ['1', reason],
      ['1', reason],
    ]);
    expect(receiver.got.map((one) => one.id)).toEqual(['1', '2']);
  });

  it('429 waits for as long as it asks, and no longer than is told', async () => {
    const hooked = await begin();
    const id = await hooked.add((await receiving(status(429, { 'retry-after': '120' }))).url);
    await hooked.add((await receiving(status(503, { 'retry-after': '86400' }))).url);
    await hooked.write({});
    await hooked.start('w').all();
    const waits = (await hooked.store.hooks.all()).map(
      ({ standing }) => standing.nextAtMs - hooked.clock.nowMs(),
    );
    expect(waits.sort((a, b) => a - b)).toEqual([120_000, 600_000]);
    expect((await hooked.store.hooks.attempts(id, { before: null, most: 1 }))[0]?.reason).toBe(
      'rate-limited',
    );
  });

  it('410 ends it at once, with an event of the organisation', async () => {
    const hooked = await begin();
    const receiver = await receiving(status(410));
    const id = await hooked.add(receiver.url);
    const watcher = await receiving();
    await hooked.add(watcher.url, { types: ['subscription-ended'] });
    await hooked.write({}, {});
    await hooked.start('w').all();
    expect((await hooked.one(id)).standing.ended?.why).toBe('gone');
    expect((await hooked.one(id)).attempts).toBe(1);
    expect(watcher.got.map(({ body }) => body.data['data'])).toEqual([
      { subscription: id, description: 'county dispatch', why: 'gone', after: '0' },
    ]);
    expect(watcher.got[0]?.body.data['text']).toMatch(/county dispatch/);
  });

  it('a message that is refused again and again is left out, told of, and holds back nothing', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    receiver.before = () => {
      receiver.answer = null;
    };
    const refuse = (response: ServerResponse) => answerWith(response, 422);
    const id = await hooked.add(receiver.url);
    await hooked.write({}, {});
    const process = hooked.start('w');
    receiver.before = (count) => {
      receiver.answer = count <= MOST_REFUSALS ? refuse : null;
    };
    await process.all();
    for (let i = 1; i < MOST_REFUSALS; i += 1) {
      hooked.clock.advance(wait(i));
      await process.all();
    }
    expect(receiver.got.map((one) => [one.id, one.body.type])).toEqual([
      ['missed-1-1', 'events-missed'],
      ['2', 'forecast-stale'],
    ]);
    expect(receiver.got[0]?.body.data).toEqual({ after: '0', upTo: '1', count: 1 });
    expect((await hooked.one(id)).standing).toMatchObject({ position: 2, missed: null, failures: 0 });
  });

  it('what nobody is to go by any more is not sent late; what was missed is named before what comes', async () => {
    const hooked = await begin();
    const receiver = await receiving(status(503));
    const id = await hooked.add(receiver.url);
    const validUntilMs = hooked.clock.nowMs() + 10 * MINUTE_MS;
    await hooked.write({ validUntilMs }, { validUntilMs }, {}, { validUntilMs: validUntilMs + HOUR_MS });
    const process = hooked.start('w');
    for (let failures = 1; hooked.clock.nowMs() < validUntilMs; failures += 1) {
      await process.all();
      hooked.clock.advance(wait(failures));
    }
    receiver.answer = null;
    await process.all();
    expect(receiver.got.map((one) => one.id)).toEqual(['missed-1-2', '3', '4']);
    expect(receiver.got[0]?.body.data).toEqual({ after: '0', upTo: '2', count: 2 });
    expect((await hooked.one(id)).standing.position).toBe(4);
  });

  it('for three days end it, and it goes on where it stood when it is written again', async () => {
    const hooked = await begin();
    const receiver = await receiving(status(500));
    const id = await hooked.add(receiver.url);
    await hooked.write({});
    const process = hooked.start('w');
    const fromMs = hooked.clock.nowMs();
    while ((await hooked.one(id)).standing.ended === null) {
      await process.all();
      const { standing } = await hooked.one(id);
      expect(standing.ended !== null).toBe(hooked.clock.nowMs() - fromMs >= FAILING_FOR_MS);
      hooked.clock.advance(HOUR_MS);
    }
    const ended = await hooked.one(id);
    expect(ended.standing.ended?.why).toBe('failing');
    receiver.answer = null;
    await process.all();
    expect(receiver.got).toEqual([]);
    const again = { ...ended.subscription, revision: 2 };
    const reply = { request: null, reply: () => ({ status: 200, body: '', headers: {} }) };
    await hooked.store.hooks.change(again, MOVED, reply);
    await process.all();
    // The fact itself was given up after a day, and is named; its end is an event like others.
    expect(receiver.got.map((one) => one.id)).toEqual(['missed-1-1', '2']);
  });
});

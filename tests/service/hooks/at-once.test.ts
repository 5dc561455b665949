// Nobody waits for a receiver that does not answer, and nothing is lost with whoever dies.

import type { ServerResponse } from 'node:http';
import { expect, it } from 'vitest';
import { onSqlite } from '../../store/on-each-store.ts';
import { hangs, numbers, useReceivers, wait } from './receivers.ts';

onSqlite('webhooks to many', ({ open }) => {
  const { begin, receiving } = useReceivers({ open });

  it.each([
    ['hangs', hangs],
    ['drips', (response: ServerResponse) => void response.write('x')],
  ])('a receiver that %s is given up at the deadline, whatever it does', async (_, answer) => {
    const hooked = await begin();
    const receiver = await receiving(answer);
    const id = await hooked.add(receiver.url);
    await hooked.write({});
    const sent = hooked.start('w').all();
    await receiver.asked(1);
    if (answer === hangs) hooked.clock.advance(15_000);
    await sent;
    const [attempt] = await hooked.store.hooks.attempts(id, { before: null, most: 1 });
    // A status of success was there in the second case: what follows it is not waited for.
    expect(attempt).toMatchObject(
      answer === hangs
        ? { outcome: 'failed', reason: 'timeout', status: null }
        : { outcome: 'taken', status: 200 },
    );
  });

  it('the body of an answer is not read, however large', async () => {
    const hooked = await begin();
    const receiver = await receiving((response) => {
      response.writeHead(200, { 'content-type': 'text/plain' });
      response.on('error', () => undefined);
      const more = (): void => {
        while (!response.destroyed && response.write('x'.repeat(65_536)));
      };
      response.on('drain', more);
      more();
    });
    const id = await hooked.add(receiver.url);
    await hooked.write({});
    await hooked.start('w').all();
    expect((await hooked.one(id)).standing.position).toBe(1);
  });

  it('thirty of a hundred receivers hang: the seventy others get theirs while those still hang', async () => {
    const hooked = await begin();
    const all = await Promise.all(
      Array.from({ length: 100 }, (_, i) => receiving(i % 10 < 3 ? hangs : null)),
    );
    for (const { url } of all) await hooked.add(url);
    await hooked.write(...Array.from({ length: 5 }, () => ({})));
    const process = hooked.start('w');
    const sent = process.all();
    const healthy = all.filter(({ answer }) => answer === null);
    expect(healthy).toHaveLength(70);
    // No time passes: not one of the hanging ones is given up before these have all of theirs.
    await Promise.all(healthy.map((receiver) => receiver.until(5)));
    for (const receiver of healthy) expect(receiver.ids()).toEqual(numbers(1, 5));
    process.stop();
    await sent;
  });

  it('a sender that dies 20 times over 1,000 events: the receiver misses nothing, and knows every repeat by its id', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    const id = await hooked.add(receiver.url);
    for (let i = 0; i < 10; i += 1) await hooked.write(...Array.from({ length: 100 }, () => ({})));
    let deaths = 0;
    let process = hooked.start('w0');
    let reborn = Promise.withResolvers<void>();
    receiver.before = (count) => {
      if (count % 47 !== 0 || deaths === 20) return;
      // Its request is out, and is answered; it never learns of it.
      deaths += 1;
      process.kill();
      reborn.resolve();
    };
    for (let life = 1; life <= 20; life += 1) {
      void process.begin();
      await reborn.promise;
      reborn = Promise.withResolvers();
      await hooked.store.hooks.releaseAll();
      process = hooked.start(`w${life}`);
    }
    await process.all();
    expect(deaths).toBe(20);
    expect(receiver.ids()).toEqual(numbers(1, 1000));
    expect(receiver.faults).toEqual([]);
    // At most the one that was out when it died comes twice.
    expect(receiver.got.length).toBeGreaterThanOrEqual(1000);
    expect(receiver.got.length).toBeLessThanOrEqual(1020);
    expect(receiver.got.length).toBeGreaterThan(1010);
    const order = [...new Set(receiver.got.map((one) => Number(one.id)))];
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    expect((await hooked.one(id)).standing.position).toBe(1000);
  });

  it('a receiver that dies and returns misses nothing, and gets it in its order', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    await hooked.add(receiver.url);
    const process = hooked.start('w');
    await hooked.write(...Array.from({ length: 10 }, () => ({})));
    receiver.before = (count) => {
      receiver.answer = count > 4 ? (response) => void response.destroy() : null;
    };
    await process.all();
    expect(receiver.ids()).toEqual(numbers(1, 4));
    await hooked.write(...Array.from({ length: 10 }, () => ({})));
    receiver.before = () => {
      receiver.answer = null;
    };
    hooked.clock.advance(wait(1));
    await process.all();
    expect(receiver.ids()).toEqual(numbers(1, 20));
    expect(receiver.got).toHaveLength(20);
  });
});

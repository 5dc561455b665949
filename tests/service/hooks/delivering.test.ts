// Webhooks over real HTTP on this machine: each event once by its id, in its order, signed so that the public library of
// Standard Webhooks takes it, to whoever may see it.

import { CloudEvent, type CloudEventV1, HTTP } from 'cloudevents';
import { expect, it } from 'vitest';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { SECRET } from '../../builders/hooks.ts';
import { onSqlite } from '../../store/on-each-store.ts';
import type { Receiver } from './receiver.ts';
import { MOVED, numbers, useReceivers } from './receivers.ts';

onSqlite('webhooks', ({ open }) => {
  const { begin, receiving } = useReceivers({ open });

  it('are sent in the order of the log, signed and plain, each kept with what became of it', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    await hooked.write({});
    const id = await hooked.add(receiver.url);
    await hooked.write(
      {},
      { site: 'fern-hollow/creek-block' },
      { validUntilMs: hooked.clock.nowMs() + HOUR_MS },
    );
    await hooked.start('w').all();
    // Only what came after it was made.
    expect(receiver.ids()).toEqual(['2', '3', '4']);
    expect(receiver.faults).toEqual([]);
    const [first, second] = receiver.got;
    expect(first?.headers['content-type']).toBe('application/json');
    expect(first?.body).toMatchObject({
      type: 'forecast-stale',
      timestamp: first?.body.data['at'],
      data: {
        id: '2',
        site: 'north-block',
        siteName: 'Site north-block',
        text: 'The forecast is too old to go by.',
      },
    });
    expect(second?.body.data['site']).toBe('creek-block');
    const attempts = await hooked.store.hooks.attempts(id, { before: null, most: 9 });
    expect(attempts.map(({ webhookId, outcome, status: code }) => [webhookId, outcome, code])).toEqual(
      ['4', '3', '2'].map((webhookId) => [webhookId, 'taken', 200]),
    );
    expect((await hooked.one(id)).standing).toMatchObject({ position: 4, failures: 0, missed: null });
    await hooked.start('w').all();
    expect(receiver.got).toHaveLength(3);
  });

  it('as CloudEvents are read by the public library, with the id of the webhook', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    await hooked.add(receiver.url, { format: 'cloudevents' });
    await hooked.write({});
    await hooked.start('w').all();
    const [got] = receiver.got;
    const event = HTTP.toEvent({ headers: got?.headers as Record<string, string>, body: got?.raw ?? '' });
    expect(event).toMatchObject({
      specversion: '1.0',
      id: got?.id,
      source: '/v1/events',
      type: 'forecast-stale',
      subject: 'fern-hollow/north-block@1',
      datacontenttype: 'application/json',
      data: { id: got?.id, site: 'north-block' },
    });
    // Its constructor throws at what the specification does not allow.
    expect(new CloudEvent(event as CloudEventV1<unknown>, true).validate()).toBe(true);
    expect(receiver.faults).toEqual([]);
  });

  it('go by type, site and area, and never beyond the sites of the key', async () => {
    const hooked = await begin();
    hooked.keys.push({ ...hooked.keys[0], prefix: 'b2b2b2b2', sites: ['creek-block'] } as never);
    const near = { circle: { lat: 36.4, lon: -120.2, radiusKm: 40 } };
    const wants = [
      [{ types: ['burn-lit'] as const }, {}, ['3']],
      [{ sites: ['far'] }, {}, ['2']],
      [{ area: near }, {}, ['1', '3', '4']],
      [{ area: { box: { south: 40, west: -120, north: 50, east: -100 } } }, {}, ['2']],
      [{}, { key: 'b2b2b2b2' }, ['4']],
      [{ sites: ['far', 'creek-block'] }, { key: 'b2b2b2b2' }, ['4']],
      [{ area: { circle: { ...near.circle, radiusKm: 0.1 } } }, {}, []],
      [{ active: false }, {}, []],
    ] as const;
    const all: Receiver[] = [];
    for (const [body, subscription] of wants) {
      const receiver = await receiving();
      all.push(receiver);
      await hooked.add(receiver.url, body, subscription);
    }
    const tap = {
      id: 't',
      burn: 'b',
      tap: 'lit',
      tappedAtMs: 0,
      by: 'Ana',
      from: 'api',
      corrects: null,
      withdraws: false,
      note: null,
    };
    await hooked.write(
      {},
      { site: 'fern-hollow/far' },
      { kind: 'burn-lit', data: tap },
      { site: 'fern-hollow/creek-block' },
    );
    await hooked.write({ organisation: 'other', site: 'other/north-block' });
    await hooked.start('w').all();
    expect(all.map((receiver) => receiver.ids())).toEqual(wants.map(([, , ids]) => [...ids]));
    expect(hooked.faults).toEqual([]);
  });

  it('of an area in which no pit lies yet tell of orders for all sites, and of none for others', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    await hooked.add(receiver.url, { area: { box: { south: 10, west: 10, north: 11, east: 11 } } });
    const order = (sites: unknown, within?: object) => ({
      ...{ site: null, kind: 'order-added' as const, subject: 'ban' },
      data: { order: 'ban', revision: 1, by: 'office', body: { name: 'Ban', issuer: 'c', sites, within } },
    });
    const far = { circle: { at: [45, -110], radius: '1 mi' } };
    await hooked.write(order('all'), order(['far']), order('all', far), {});
    await hooked.start('w').all();
    expect([receiver.ids(), hooked.faults]).toEqual([['1'], []]);
  });

  it('end with the key that wrote them, and the log says so to whoever sees all', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    const id = await hooked.add(receiver.url);
    const process = hooked.start('w');
    await hooked.write({});
    await process.all();
    hooked.keys[0] = { ...hooked.keys[0], revokedAtMs: hooked.clock.nowMs() } as never;
    await hooked.write({});
    await process.all();
    expect(receiver.ids()).toEqual(['1']);
    expect((await hooked.one(id)).standing.ended?.why).toBe('key');
    const last = (await hooked.store.events.after({ after: 2, most: 9 })).at(-1);
    expect(last).toMatchObject({
      kind: 'subscription-ended',
      site: null,
      subject: id,
      data: { why: 'key', after: '1' },
    });
    expect(JSON.stringify(last)).not.toContain(receiver.url);
  });

  it('are signed with both secrets while two are live', async () => {
    const hooked = await begin();
    const [older, both, newer] = [await receiving(), await receiving(), await receiving()];
    const next = `whsec_${Buffer.alloc(32, 9).toString('base64')}`;
    const untilMs = hooked.clock.nowMs() + MINUTE_MS;
    const secrets = [
      { secret: next, untilMs: null },
      { secret: SECRET, untilMs },
    ];
    for (const [receiver, known] of [
      [older, [SECRET]],
      [both, [SECRET, next]],
      [newer, [next]],
    ] as const) {
      receiver.secrets = [...known];
      await hooked.add(receiver.url, {}, { secrets });
    }
    const process = hooked.start('w');
    await hooked.write({});
    await process.all();
    expect([older, both, newer].map(({ faults, got }) => [faults, got.length])).toEqual(
      Array(3).fill([[], 1]),
    );
    expect(String(both.got[0]?.headers['webhook-signature']).split(' ')).toHaveLength(2);
    hooked.clock.advance(MINUTE_MS);
    await hooked.write({});
    await process.all();
    expect([older, both, newer].map(({ faults }) => faults.length > 0)).toEqual([true, true, false]);
    expect(String(newer.got[1]?.headers['webhook-signature']).split(' ')).toHaveLength(1);
  });

  it('sent anew from a position come again under their own ids', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    const id = await hooked.add(receiver.url);
    const process = hooked.start('w');
    await hooked.write({}, {}, {});
    await process.all();
    await hooked.store.hooks.moveTo(id, 1, MOVED);
    await process.all();
    expect(receiver.got.map((one) => one.id)).toEqual(['1', '2', '3', '2', '3']);
  });

  it('of two processes one sends for a subscription at a time; together they send each event once', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    await hooked.add(receiver.url);
    const [one, two] = [hooked.start('w1'), hooked.start('w2')];
    await hooked.write(...Array.from({ length: 50 }, () => ({})));
    await Promise.all([one.all(), two.all()]);
    expect(receiver.got.map((got) => got.id)).toEqual(numbers(1, 50));
  });

  it('what retention has dropped is named, not passed over in silence', async () => {
    const hooked = await begin();
    const receiver = await receiving();
    await hooked.add(receiver.url);
    await hooked.write({ atMs: 1 }, { atMs: 2 }, {});
    const day = 86_400_000;
    await hooked.store.care.expire({
      plansMs: day,
      claimsMs: day,
      repliesMs: day,
      burnsMs: day,
      observationsMs: day,
      auditMs: day,
    });
    const dropped = (await hooked.store.events.ends()).dropped;
    await hooked.start('w').all();
    expect(dropped).toBeGreaterThan(0);
    expect(receiver.got[0]?.body).toMatchObject({
      type: 'events-missed',
      data: { after: '0', upTo: String(dropped), count: null },
    });
    expect(receiver.got.at(-1)?.id).toBe(dropped < 3 ? '3' : `missed-1-${dropped}`);
  });
});

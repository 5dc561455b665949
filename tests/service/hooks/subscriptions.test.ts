// Subscriptions through the API of a running service, as a program of a dispatch centre makes and minds them.

import { describe, expect, it } from 'vitest';
import { HOUR_MS } from '#core/units/time.ts';
import { deliveriesSchema, triedSchema } from '#publish/wire-subscriptions.ts';
import { ask, begin, made, orderOf, PATH } from './api.ts';

describe('a subscription', () => {
  it('is sent what happens from then on, verified with the secret that is shown once', async () => {
    const { keyed, receiver, admin } = await begin();
    const subscription = await made(keyed, admin, receiver, { types: ['order-added', 'order-lifted'] });
    expect(subscription).toMatchObject({
      revision: 1,
      state: 'sending',
      format: 'plain',
      active: true,
      sites: null,
    });
    expect(subscription.secret).toMatch(/^whsec_[A-Za-z0-9+/]{43}=$/);
    expect((await ask(keyed, admin, 'POST', '/v1/orders', orderOf('Burn ban'))).status).toBe(201);
    await keyed.service.hooks.send();
    expect([receiver.got.length, receiver.faults]).toEqual([1, []]);
    const [got] = receiver.got;
    const log = (await ask(keyed, admin, 'GET', '/v1/events?types=order-added')).body;
    expect(got?.body.data).toEqual(log.events.at(-1));
    expect(got?.body.data['text']).toContain('Burn ban');
    const one = await ask(keyed, admin, 'GET', `${PATH}/${subscription.id}`);
    expect(one.headers['etag']).toBe('"r1"');
    expect(one.body).toMatchObject({
      state: 'sending',
      after: got?.id,
      failures: 0,
      missed: null,
      ended: null,
    });
    for (const { body } of [one, await ask(keyed, admin, 'GET', PATH)])
      expect(JSON.stringify(body)).not.toContain(subscription.secret?.slice(6));
    const { deliveries } = deliveriesSchema.parse(
      (await ask(keyed, admin, 'GET', `${PATH}/${subscription.id}/deliveries`)).body,
    );
    expect(deliveries).toEqual([
      expect.objectContaining({ number: 1, webhookId: got?.id, outcome: 'taken', status: 200 }),
    ]);
  });

  it('made twice by the same request is one, with the same reply; another key cannot ask for that reply', async () => {
    const { keyed, receiver, admin } = await begin();
    const once = { 'idempotency-key': 'first-try' };
    const send = (key: string) => ask(keyed, key, 'POST', PATH, { url: receiver.url }, once);
    const [first, second] = [await send(admin), await send(admin)];
    expect([first.status, second.status]).toEqual([201, 201]);
    expect(second.body).toEqual(first.body);
    expect(second.headers['idempotency-replayed']).toBe('true');
    expect((await ask(keyed, admin, 'GET', PATH)).body.subscriptions).toHaveLength(1);
    const other = await send(await keyed.mint({ scopes: ['admin'] }));
    expect(other.status).toBe(422);
    expect(JSON.stringify(other.body)).not.toContain('whsec_');
  });

  it('is changed and taken out by the revision that was read, and each is in the audit', async () => {
    const { keyed, receiver, admin } = await begin();
    const { id } = await made(keyed, admin, receiver);
    const url = `${PATH}/${id}`;
    const body = { url: receiver.url, active: false };
    expect((await ask(keyed, admin, 'PUT', url, body)).status).toBe(428);
    expect((await ask(keyed, admin, 'PUT', url, body, { 'if-match': '"r2"' })).status).toBe(412);
    const changed = await ask(keyed, admin, 'PUT', url, body, { 'if-match': '"r1"' });
    expect([changed.status, changed.headers['etag'], changed.body.state]).toEqual([200, '"r2"', 'paused']);
    expect(changed.body.secret).toBeUndefined();
    await ask(keyed, admin, 'POST', '/v1/orders', orderOf('While it waits'));
    await keyed.service.hooks.send();
    expect(receiver.got).toEqual([]);
    await ask(keyed, admin, 'PUT', url, { url: receiver.url }, { 'if-match': '"r2"' });
    await keyed.service.hooks.send();
    expect(receiver.got.map(({ body: b }) => b.type)).toContain('order-added');
    expect((await ask(keyed, admin, 'DELETE', url, undefined, { 'if-match': '"r2"' })).status).toBe(412);
    expect((await ask(keyed, admin, 'DELETE', url, undefined, { 'if-match': '"r3"' })).status).toBe(204);
    expect((await ask(keyed, admin, 'GET', url)).status).toBe(404);
    const audit = (await keyed.store.keys.audit(99)).filter(
      ({ subject }) => subject === `subscription ${id}`,
    );
    expect(audit.map(({ what }) => what).reverse()).toEqual([
      'subscription-made',
      'subscription-changed',
      'subscription-changed',
      'subscription-taken-out',
    ]);
    expect(JSON.stringify(audit)).not.toMatch(/whsec_|127\.0\.0\.1/);
  });

  it('gets another secret; both sign for as long as is told, and then the new one alone', async () => {
    const { keyed, receiver, admin } = await begin();
    const { id, secret = '' } = await made(keyed, admin, receiver);
    const rotate = (revision: number) =>
      ask(
        keyed,
        admin,
        'POST',
        `${PATH}/${id}/rotate`,
        { overlapHours: 2 },
        { 'if-match': `"r${revision}"`, 'idempotency-key': 'turn' },
      );
    const rotated = await rotate(1);
    expect(rotated.body).toMatchObject({ revision: 2, secret: expect.stringMatching(/^whsec_/) });
    expect(Date.parse(rotated.body.olderSecretUntil) - keyed.clock.nowMs).toBeGreaterThan(2 * HOUR_MS - 1000);
    expect((await rotate(1)).body).toEqual(rotated.body);
    expect((await ask(keyed, admin, 'POST', `${PATH}/${id}/rotate`, {}, { 'if-match': '"r1"' })).status).toBe(
      412,
    );
    const test = () => ask(keyed, admin, 'POST', `${PATH}/${id}/test`);
    receiver.secrets = [secret, rotated.body.secret];
    expect(triedSchema.parse((await test()).body)).toMatchObject({ outcome: 'taken', type: 'test' });
    expect(receiver.faults).toEqual([]);
    keyed.clock.nowMs += 2 * HOUR_MS;
    await test();
    const [, last] = receiver.got;
    expect(String(last?.headers['webhook-signature']).split(' ')).toHaveLength(1);
    expect((await ask(keyed, admin, 'GET', `${PATH}/${id}`)).body.olderSecretUntil).toBeNull();
  });

  it('a test tells what became of it and moves nothing; what was sent can be sent anew', async () => {
    const { keyed, receiver, admin } = await begin();
    const { id, after } = await made(keyed, admin, receiver, { types: ['order-added'] });
    receiver.answer = (response) => void response.writeHead(503).end('secret words');
    const tried = await ask(keyed, admin, 'POST', `${PATH}/${id}/test`);
    expect(tried.body).toMatchObject({ outcome: 'failed', status: 503, reason: 'unavailable' });
    expect(JSON.stringify(tried.body)).not.toContain('secret words');
    receiver.answer = null;
    await ask(keyed, admin, 'POST', '/v1/orders', orderOf('Ban'));
    await keyed.service.hooks.send();
    const ids = receiver.ids();
    expect((await ask(keyed, admin, 'POST', `${PATH}/${id}/replay`, { after: '999999' })).status).toBe(400);
    const moved = await ask(keyed, admin, 'POST', `${PATH}/${id}/replay`, { after });
    expect([moved.status, moved.body.after]).toEqual([200, after]);
    await keyed.service.hooks.send();
    expect(receiver.got.map((one) => one.id)).toEqual([...ids, ...ids]);
  });
});

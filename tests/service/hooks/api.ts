// A running service with keys, and a receiver beside it; asked as a program of a dispatch centre asks.

import { afterEach, expect } from 'vitest';
import { subscriptionSchema } from '#publish/wire-subscriptions.ts';
import { type Keyed, startKeyed } from '../keyed.ts';
import { type Receiver, startReceiver } from './receiver.ts';

const closing: { close(): Promise<void> }[] = [];
afterEach(async () => {
  for (const one of closing.splice(0).reverse()) await one.close();
});

export async function begin(more: Parameters<typeof startKeyed>[1] = {}) {
  const keyed = await startKeyed(new Date(Math.floor(Date.now() / 1000) * 1000).toISOString(), more);
  closing.push(keyed);
  const receiver = await startReceiver();
  closing.push(receiver);
  const admin = await keyed.mint({ scopes: ['admin'] });
  return { keyed, receiver, admin };
}

export async function ask(
  keyed: Keyed,
  key: string,
  method: string,
  url: string,
  payload?: object,
  more: object = {},
) {
  const response = await keyed.service.app.inject({
    method: method as 'POST',
    url,
    headers: { authorization: `Bearer ${key}`, ...more },
    ...(payload ? { payload } : {}),
  });
  const body = response.body === '' ? null : response.json();
  return { status: response.statusCode, headers: response.headers, body };
}

export const PATH = '/v1/subscriptions';
export const orderOf = (name: string) => ({
  name,
  issuer: 'county',
  sites: 'all',
  from: '2026-04-14',
  verdict: 'stop',
});

export async function made(keyed: Keyed, key: string, receiver: Receiver, more: object = {}) {
  const { status, body } = await ask(keyed, key, 'POST', PATH, { url: receiver.url, ...more });
  expect([status, status === 201 ? '' : body]).toEqual([201, '']);
  const subscription = subscriptionSchema.parse(body);
  receiver.secrets = [subscription.secret ?? ''];
  return subscription;
}

// An order that a dispatch centre posted, on the page of the office: what its form has no field for is shown, and kept.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Keyed, startKeyed } from '../../../service/keyed.ts';
import { wordsOf } from '../../page/read-page.ts';
import { createHand } from './forms.ts';

let keyed: Keyed;
let admin = '';
let reader = '';
beforeAll(async () => {
  keyed = await startKeyed('2026-03-03T01:10:00Z');
  admin = await keyed.mint({ name: 'Marit', scopes: ['admin'] });
  reader = await keyed.mint({ scopes: ['read'] });
});
afterAll(() => keyed.close());

const STOP = {
  ...{ kind: 'authority-stop', name: 'Smoke on the highway', issuer: 'Fern County fire', sites: 'all' },
  within: { circle: { at: [36.44, -120.23], radius: '1 mi' } },
};

it('an authority stop within an area says both to whoever may change it or only look, and stays so when its name is mended', async () => {
  const headers = { authorization: `Bearer ${admin}` };
  const { app } = keyed.service;
  expect((await app.inject({ method: 'POST', url: '/v1/orders', headers, payload: STOP })).statusCode).toBe(
    201,
  );
  const hand = createHand(keyed, () => admin);
  const url = '/settings/orders/smoke-on-the-highway';
  for (const key of [admin, reader]) {
    const words = wordsOf((await createHand(keyed, () => key).open(url)).body);
    expect(words).toContain('authority-stop');
    expect(words).toMatch(/36\.44.*-120\.23.*1 mi/);
  }
  const preview = await hand.type(url, { name: 'Smoke on highway 9' });
  expect((await hand.save(preview)).status).toBe(303);
  const { body } = (await app.inject({ url: '/v1/orders/smoke-on-the-highway', headers })).json();
  expect(body).toEqual({ ...STOP, name: 'Smoke on highway 9' });
  const ended = await hand.type(url, { to: '2026-03-09' });
  expect([ended.status, wordsOf(ended.body).includes('stands until it is lifted')]).toEqual([400, true]);
});

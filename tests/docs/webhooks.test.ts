// docs/webhooks.md: its sample verifies what is really sent, and its figures are those of the program.

import { readFileSync } from 'node:fs';
import { Webhook } from 'standardwebhooks';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  FACT_LIFE_MS,
  FAILING_FOR_MS,
  FAILURES_TO_END,
  MOST_REFUSALS,
  WAITS_MS,
} from '#core/events/hook-step.ts';
import { DAY_MS, HOUR_MS } from '#core/units/time.ts';
import { signWebhook, webhookKey } from '#notify/sign-webhook.ts';
import { subscriptionBody } from '#publish/wire-subscriptions.ts';

const page = readFileSync(new URL('../../docs/webhooks.md', import.meta.url), 'utf8');
const sample = (language: string): string => page.split(`\`\`\`${language}\n`)[1]?.split('```')[0] ?? '';

type IsFromPitward = (
  headers: Record<string, string>,
  body: string,
  secret: string,
  nowS?: number,
) => boolean;

describe('the sample that verifies', () => {
  const secret = `whsec_${Buffer.alloc(32, 5).toString('base64')}`;
  const other = `whsec_${Buffer.alloc(24, 6).toString('base64')}`;
  const body = '{"type":"burn-lit","data":{"text":"Encendida ö"}}';
  const nowS = Math.floor(Date.now() / 1000);
  const keyOf = (text: string) => webhookKey(text) ?? new Uint8Array();
  const headersAt = (atS: number, secrets: readonly string[]) => ({
    'webhook-id': '1042',
    'webhook-timestamp': String(atS),
    'webhook-signature': signWebhook(secrets.map(keyOf), '1042', atS, body),
  });
  let isFromPitward: IsFromPitward;
  beforeAll(async () => {
    ({ isFromPitward } = await import(`data:text/javascript,${encodeURIComponent(sample('js'))}`));
  });

  it('takes what is sent, with either of two secrets, as the public library does', () => {
    const headers = headersAt(nowS, [other, secret]);
    for (const known of [secret, other]) {
      expect(isFromPitward(headers, body, known)).toBe(true);
      expect(new Webhook(known).verify(body, headers)).toEqual(JSON.parse(body));
    }
  });

  it('takes nothing else', () => {
    const headers = headersAt(nowS, [secret]);
    expect(isFromPitward(headers, `${body} `, secret)).toBe(false);
    expect(isFromPitward(headers, body, other)).toBe(false);
    expect(isFromPitward({ ...headers, 'webhook-id': '1043' }, body, secret)).toBe(false);
    expect(isFromPitward({ ...headers, 'webhook-timestamp': String(nowS - 1) }, body, secret)).toBe(false);
    expect(isFromPitward({ ...headers, 'webhook-signature': 'v1,' }, body, secret)).toBe(false);
    expect(isFromPitward({}, body, secret)).toBe(false);
    expect(isFromPitward(headersAt(nowS - 300, [secret]), body, secret, nowS)).toBe(true);
    for (const atS of [nowS - 301, nowS + 301])
      expect(isFromPitward(headersAt(atS, [secret]), body, secret, nowS)).toBe(false);
  });
});

it('what it asks for is a subscription', () => {
  const body = /-d '(\{[\s\S]*?\})' \\/.exec(page)?.[1] ?? '';
  expect(subscriptionBody.parse(JSON.parse(body))).toMatchObject({ format: 'plain', active: true });
});

it('its figures are those of the program', () => {
  expect(WAITS_MS.map((ms) => ms / 1000)).toEqual([5, 15, 30, 60, 120, 300, 600, 900]);
  expect(page).toContain('5 s, 15 s, 30 s, 1, 2, 5, 10 and then every 15 minutes');
  expect([FACT_LIFE_MS, FAILING_FOR_MS, FAILURES_TO_END, MOST_REFUSALS]).toEqual([
    DAY_MS,
    72 * HOUR_MS,
    20,
    3,
  ]);
  for (const told of ['for a day', 'After three days', 'at least twenty tries', 'after three tries'])
    expect(page).toContain(told);
});

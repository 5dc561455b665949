// Invented subscriptions and tries.

import type { SubscriptionBody } from '#core/events/subscription.ts';
import type { NewAttempt, Subscription } from '#store/hooks/records.ts';
import { auditOf } from './store.ts';

export const HOOKS_AT_MS = Date.UTC(2026, 2, 2, 12);

/** 24 bytes, as the standard has at the least. */
export const SECRET = `whsec_${Buffer.alloc(24, 7).toString('base64')}`;

export const hookBodyOf = (change: Partial<SubscriptionBody> = {}): SubscriptionBody => ({
  url: 'https://dispatch.example/pits',
  format: 'plain',
  description: 'county dispatch',
  active: true,
  sites: null,
  area: null,
  types: null,
  ...change,
});

export const hookOf = (id: string, change: Partial<Subscription> = {}): Subscription => ({
  id,
  organisation: 'fern-hollow',
  revision: 1,
  body: hookBodyOf(),
  key: 'a1a1a1a1',
  secrets: [{ secret: SECRET, untilMs: null }],
  madeAtMs: HOOKS_AT_MS,
  changedAtMs: HOOKS_AT_MS,
  changedBy: 'office (a1a1a1a1)',
  ...change,
});

export const hookAuditOf = (what: string) => auditOf({ what, subject: 'subscription' });

export const tryOf = (webhookId: string, change: Partial<NewAttempt> = {}): NewAttempt => ({
  webhookId,
  type: 'verdict-changed',
  atMs: HOOKS_AT_MS,
  tookMs: 12,
  outcome: 'taken',
  status: 200,
  reason: null,
  detail: null,
  ...change,
});

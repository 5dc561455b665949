// What channels are given in tests: a clock that only the test moves, names that lead to this machine, secrets of the test.

import { readFileSync } from 'node:fs';
import type { ChannelDeps, InboundText, Outgoing, Receipt } from '#notify/channel.ts';
import { type ManualClock, manualClock } from './manual-clock.ts';

export const AUTHORITY = readFileSync('fixtures/tls/authority.pem', 'utf8');
export const SERVER_TLS = {
  cert: readFileSync('fixtures/tls/server.pem', 'utf8'),
  key: readFileSync('fixtures/tls/server-key.pem', 'utf8'),
};

export interface TestDeps extends ChannelDeps {
  readonly clock: ManualClock;
  readonly receipts: Receipt[];
  readonly inbound: InboundText[];
  /** Names that were asked for. */
  readonly resolved: string[];
}

export function testDeps(
  more: Partial<ChannelDeps> & { readonly secrets?: Record<string, string> } = {},
): TestDeps {
  const receipts: Receipt[] = [];
  const inbound: InboundText[] = [];
  const resolved: string[] = [];
  const { secrets = {}, resolve = () => Promise.resolve(['127.0.0.1']), ...rest } = more;
  return {
    clock: manualClock(),
    secret: (name) => secrets[name] ?? null,
    random: () => 0.5,
    trust: AUTHORITY,
    onReceipt: async (receipt) => {
      receipts.push(receipt);
    },
    onInbound: async (text) => {
      inbound.push(text);
    },
    ...rest,
    resolve: (name) => {
      resolved.push(name);
      return resolve(name);
    },
    receipts,
    inbound,
    resolved,
  } as TestDeps;
}

export const outgoingOf = (clock: ManualClock, more: Partial<Outgoing> = {}): Outgoing => ({
  id: 'msg_7f3a.1-2',
  to: '+15550100',
  subject: 'Pit 7: PUT IT OUT',
  text: 'Pit 7: PUT IT OUT. Observed gust 31 mph at 1:42 pm, limit 25 mph.',
  html: null,
  link: null,
  event: { type: 'notice', atMs: clock.nowMs(), data: { site: 'pit-7', verdict: 'stop' } },
  topic: 'own/pit-7 notice',
  validUntilMs: clock.nowMs() + 30 * 60_000,
  urgency: 'high',
  ...more,
});

/** Nobody gives up. */
export const never = (): AbortSignal => new AbortController().signal;

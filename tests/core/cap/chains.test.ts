// Chains of messages, whatever a crew taps and the watch says, in whatever order it comes: CAP 1.2, 3.2.1 (msgType,
// references), and that nothing is ever left standing which is over, nor taken back which never stood.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { burnSays } from '#core/cap/burn-says.ts';
import { noticeSays } from '#core/cap/notice-says.ts';
import { type CapSays, type ChainMessage, stepChain } from '#core/cap/step-chain.ts';
import type { TransitionKind } from '#core/notices/notice.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { BurnTap, Tap } from '#core/watch/burn.ts';
import type { ConditionBasis, ConditionCode } from '#core/watch/condition.ts';
import { foldTaps } from '#core/watch/fold-taps.ts';
import { conditionOf, transitionOf } from './transition-of.ts';

const START_MS = Date.UTC(2026, 3, 14, 17);

interface Published extends ChainMessage {
  readonly msgType: string;
  readonly references: readonly { readonly identifier: string; readonly sent: string }[];
  readonly says: CapSays['kind'];
}

/** Every message that a row of sayings makes. */
function publishAll(sayings: readonly { readonly says: CapSays; readonly atMs: number }[]): Published[] {
  const chain: Published[] = [];
  for (const { says, atMs } of sayings) {
    const step = stepChain(chain, says, atMs);
    if (step === null) continue;
    const sent = new Date(step.sentMs).toISOString();
    const identifier = `m${chain.length}`;
    chain.push({ ...step, sender: 'us', identifier, sent, says: says.kind });
  }
  return chain;
}

function expectValid(chain: readonly Published[]): void {
  for (const [i, message] of chain.entries()) {
    const before = chain.slice(0, i);
    const last = before.at(-1);
    const isOpen = last !== undefined && !last.ends;
    const names = message.references.map(({ identifier }) => identifier);
    expect(message.msgType === 'Alert').toBe(!isOpen);
    expect(names.length === 0).toBe(message.msgType === 'Alert');
    // Only of its own run, the last of it always, and each as it was sent.
    const run = before.slice(before.findLastIndex(({ ends }) => ends) + 1);
    const sentOf = new Map(run.map((m) => [m.identifier, m.sent]));
    for (const { identifier, sent } of message.references) expect(sentOf.get(identifier)).toBe(sent);
    if (isOpen) expect(names.at(-1)).toBe(last.identifier);
    for (const alive of run) if (alive.expiresMs > message.sentMs) expect(names).toContain(alive.identifier);
    expect(message.sentMs).toBeGreaterThanOrEqual(last?.sentMs ?? 0);
    expect(message.sentMs % 1000).toBe(0);
    expect(message.ends).toBe(message.says !== 'stands');
    expect(message.msgType === 'Cancel').toBe(message.says === 'withdrawn');
    if (message.msgType !== 'Cancel') expect(message.expiresMs).toBeGreaterThan(message.sentMs);
  }
}

const KINDS: readonly TransitionKind[] = [
  'raised',
  'worse',
  'eased',
  'unsteady',
  'unsure',
  'still',
  'over',
  'corrected',
];
const CODES: readonly ConditionCode[] = [
  'wind-shifted',
  'plan-worse',
  'local-order',
  'forecast-stale',
  'cover-due',
];
const BASES: readonly ConditionBasis[] = ['observed', 'forecast', 'record', 'order'];

it('any row of transitions of a notice makes a chain that holds, and its end takes back what stood', () => {
  const transition = fc.record({
    kind: fc.constantFrom(...KINDS),
    verdict: fc.constantFrom('go', 'hold', 'stop'),
    code: fc.constantFrom(...CODES),
    basis: fc.constantFrom(...BASES),
    truth: fc.constantFrom('true', 'unknown'),
    // The clock may be set back, and what is of no use any more may be told.
    stepMs: fc.integer({ min: -10 * MINUTE_MS, max: 400 * MINUTE_MS }),
    validMin: fc.integer({ min: -60, max: 4000 }),
    aheadMin: fc.option(fc.integer({ min: -60, max: 600 })),
  });
  fc.assert(
    fc.property(fc.array(transition, { maxLength: 30 }), (given) => {
      let atMs = START_MS;
      const sayings = given.map(({ kind, verdict, stepMs, validMin, aheadMin, ...condition }) => {
        atMs += stepMs;
        const whenMs = aheadMin === null ? null : atMs + aheadMin * MINUTE_MS;
        const of = conditionOf({ ...condition, validUntilMs: atMs + validMin * MINUTE_MS }, { atMs: whenMs });
        return { says: noticeSays(transitionOf({ kind, verdict, atMs, condition: of })), atMs };
      });
      const chain = publishAll(sayings);
      expectValid(chain);
      const last = sayings.at(-1);
      if (last?.says.kind === 'stands') expect(chain.at(-1)?.ends).toBe(false);
      else expect(chain.at(-1)?.ends ?? true).toBe(true);
    }),
  );
});

const TAPS: readonly Tap[] = ['lit', 'charging', 'burning-down', 'covered', 'put-out-early'];

it('any taps, late, corrected and withdrawn, make a chain that stands as long as the pit is not covered', () => {
  const tap = fc.record({
    tap: fc.constantFrom(...TAPS),
    lateMin: fc.integer({ min: 0, max: 90 }),
    stepMin: fc.integer({ min: 0, max: 120 }),
    corrects: fc.option(fc.nat(10)),
    withdraws: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(tap, { minLength: 1, maxLength: 15 }), (given) => {
      let receivedAtMs = START_MS;
      const taps: BurnTap[] = [];
      const sayings = given.map(({ tap: what, lateMin, stepMin, corrects, withdraws }, i) => {
        receivedAtMs += stepMin * MINUTE_MS;
        const replaced = corrects === null ? undefined : taps[corrects];
        taps.push({
          id: `t${i}`,
          burn: 'b',
          tap: what,
          tappedAtMs: receivedAtMs - lateMin * MINUTE_MS,
          receivedAtMs,
          by: 'Ana',
          from: 'page',
          corrects: replaced?.id ?? null,
          withdraws: replaced !== undefined && withdraws,
          note: '',
        });
        return { says: burnSays(foldTaps([...taps], 'own/a', null), receivedAtMs), atMs: receivedAtMs };
      });
      const chain = publishAll(sayings);
      expectValid(chain);
      const burn = foldTaps(taps, 'own/a', null);
      const isOpen = burn !== null && burn.closedAtMs === null;
      expect(chain.length > 0 && chain.at(-1)?.ends === false).toBe(isOpen);
    }),
  );
});

it('an all-clear never comes of what nobody can say', () => {
  for (const kind of ['unsure', 'unsteady', 'eased', 'still', 'corrected'] as const) {
    const says = noticeSays(
      transitionOf({ kind, verdict: 'go', atMs: START_MS, condition: conditionOf({}) }),
    );
    expect(says.terms.responseType).not.toBe('AllClear');
    expect(says.kind).not.toBe('over');
  }
});

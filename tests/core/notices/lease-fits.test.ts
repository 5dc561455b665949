// Row 5: a lease longer than the time within which a message must be out kept every other sender from sending
// (alertmanager#488); one shorter than a try lets two send at once.

import { expect, it } from 'vitest';
import { leaseFault } from '#core/notices/lease-fits.ts';

it('row 5: a try ends before its lease, and a lease before the message must be out', () => {
  expect(leaseFault({ sendTimeoutMs: 10_000, leaseMs: 15_000, sendWithinMs: 60_000 })).toBeNull();
  expect(leaseFault({ sendTimeoutMs: 15_000, leaseMs: 15_000, sendWithinMs: 60_000 })).toMatch(
    /may still send/,
  );
  expect(leaseFault({ sendTimeoutMs: 10_000, leaseMs: 60_000, sendWithinMs: 60_000 })).toMatch(
    /keeps others/,
  );
  for (const sendTimeoutMs of [0, -1, Number.NaN]) {
    expect(leaseFault({ sendTimeoutMs, leaseMs: 15_000, sendWithinMs: 60_000 })).toMatch(/must end/);
  }
  expect(leaseFault({ sendTimeoutMs: 10_000, leaseMs: Number.NaN, sendWithinMs: 60_000 })).not.toBeNull();
});

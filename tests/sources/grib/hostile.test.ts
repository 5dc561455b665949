// Bytes that mean harm: a fault that says what and where, within the memory and the steps that were allowed.

import { expect, it } from 'vitest';
import { FUZZ_LIMITS, mutated, Reader, randomOf, soundMessages } from './mutate.ts';

it('20,000 messages with faults: each decodes or is refused, both kernels alike, within its limits', () => {
  const random = randomOf(20_261_130);
  const sound = soundMessages(7, 60);
  const reader = new Reader();
  for (let n = 0; n < 20_000; n += 1) reader.read(mutated(sound, random));
  const { cost } = reader;
  expect(cost.runs).toBe(20_000);
  // Both ways out were taken often, or the faults are not what they should be.
  expect(cost.decoded).toBeGreaterThan(2000);
  for (const kind of ['truncated', 'malformed', 'unsupported', 'too-large']) {
    expect([kind, (cost.faults[kind] ?? 0) > 100]).toEqual([kind, true]);
  }
  expect(cost.mostSteps).toBeLessThanOrEqual(FUZZ_LIMITS.mostSteps);
  expect(cost.mostBytes).toBeLessThanOrEqual(FUZZ_LIMITS.mostBytes);
  // What is fixed: blocks and tables of the kernels, whole pages of 64 KiB, and room for whole vectors.
  expect(cost.mostKeptBytes).toBeLessThanOrEqual(FUZZ_LIMITS.mostBytes + 2 * 65_536);
});

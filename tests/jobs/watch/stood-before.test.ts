import { describe, expect, it } from 'vitest';
import { HOUR_MS } from '#core/units/time.ts';
import type { Burn } from '#core/watch/burn.ts';
import { makeCondition } from '#core/watch/make-condition.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { stoodBefore } from '#jobs/watch/stood-before.ts';
import { EIGHT_MS } from '../../builders/notices.ts';
import { burnOf } from '../../builders/watch-records.ts';

const CONDITIONS = [
  makeCondition('thunder-near', {
    truth: 'unknown',
    verdict: 'stop',
    basis: 'observed',
    asOfMs: EIGHT_MS,
    validUntilMs: EIGHT_MS + HOUR_MS,
  }),
];
/** Looked at last at eight, and again so many hours later. */
const kept = (hoursLater: number, burn: Burn | null, judgedAtMs: number | null = EIGHT_MS): boolean =>
  stoodBefore(
    { conditions: CONDITIONS, judgedAtMs },
    burn,
    DEFAULT_WATCH,
    EIGHT_MS + hoursLater * HOUR_MS,
  ).includes(CONDITIONS[0] as (typeof CONDITIONS)[number]);

describe('how things stood when a site was last looked at', () => {
  it('counts while the same fire burns, however long nobody looked', () => {
    const lit = burnOf('b1', { openedAtMs: EIGHT_MS - HOUR_MS });
    expect([kept(1, lit), kept(20, lit)]).toEqual([true, true]);
  });

  it('of another day says nothing of a fire that was lit since', () => {
    const lit = burnOf('b2', { openedAtMs: EIGHT_MS + 23 * HOUR_MS });
    expect(kept(24, lit)).toBe(false);
  });

  it('counts for a fire that was lit soon after', () => {
    const lit = burnOf('b2', { openedAtMs: EIGHT_MS + HOUR_MS });
    expect([kept(2, lit), kept(3, lit), kept(3.1, lit)]).toEqual([true, true, false]);
  });

  it('without a fire counts for as long as observations do', () => {
    const covered = burnOf('b1', { closedAtMs: EIGHT_MS });
    expect([kept(3, null), kept(3, covered), kept(4, null), kept(4, covered)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });

  it('is nothing where nobody ever looked', () => {
    expect(kept(0, burnOf('b1'), null)).toBe(false);
  });
});

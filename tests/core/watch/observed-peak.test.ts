import { describe, expect, it } from 'vitest';
import { observedLimits } from '#core/watch/observed-limits.ts';
import { core } from '../../builders/forecast.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { clock, every, the } from '../../builders/watch.ts';
import { wandering, watchContextOf } from '../../builders/watch-input.ts';

const mph = (n: number) => core('windGust', `${n} mph`);
const LIMITS = limitSet([limitOf('windGust', { high: { hold: '20 mph', stop: '25 mph' } })]);

/** A quiet morning with gusts of 14 mph, every five minutes; at 13:00 a peak of 30 mph is told of. */
const judged = (peakAt: string, now = '13:00') => {
  const observations = every(5, '11:00', now, wandering(180, 3), { gustMps: mph(14) }).map((o) =>
    o.observedAtMs === clock('13:00')
      ? { ...o, receivedAtMs: clock('13:00'), peak: { atMs: clock(peakAt), speedMps: mph(30) } }
      : o,
  );
  const conditions = observedLimits(watchContextOf({ limits: LIMITS, observations, now }));
  return the(conditions, 'observed-beyond-limit', 'windGust');
};

describe('a peak wind of before the observation that tells it', () => {
  it.each(['12:55', '12:47', '12:46'])('of %s is a gust of its own moment', (when) => {
    const { truth, verdict, asOfMs, figures } = judged(when);
    expect({ truth, verdict, asOfMs }).toEqual({ truth: 'true', verdict: 'stop', asOfMs: clock(when) });
    expect(figures).toMatchObject({ value: mph(30), atMs: clock(when) });
  });

  it('is over when it has been clear for 15 minutes since, not since it was told', () => {
    expect(judged('12:49', '13:04').truth).toBe('true');
    expect(judged('12:49', '13:05').truth).toBe('false');
  });

  it('raises nothing when it is told more than 20 minutes after', () => {
    expect(judged('12:39').truth).toBe('false');
  });
});

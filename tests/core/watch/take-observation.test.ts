import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Observation } from '#core/watch/observation.ts';
import { byStationAndTime, takeObservation } from '#core/watch/take-observation.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { clock, seen } from '../../builders/watch.ts';

const NOW = clock('13:00');
const take = (known: readonly Observation[], incoming: Observation) =>
  takeObservation(known, incoming, NOW, DEFAULT_WATCH);
const takeAll = (incoming: readonly Observation[]) =>
  incoming.reduce<readonly Observation[]>((known, o) => take(known, o).observations, []);

describe('an observation that comes in', () => {
  it('is accepted where its station and moment are new, and put in order of its own time', () => {
    const [late, early] = [seen('12:55', '180 5'), seen('12:50', '180 5')];
    expect(take([late], early)).toEqual({ taken: 'accepted', observations: [early, late] });
  });

  it('is no neighbour of another station at the same moment', () => {
    const other = seen('12:55', '90 5', { station: 'KXYZ' });
    expect(take([seen('12:55', '180 5')], other).taken).toBe('accepted');
  });

  it('is a duplicate where it tells nothing else, however it came', () => {
    const known = [seen('12:55', '180 5')];
    const again = seen('12:55', '180 5', { receivedAtMs: NOW, raw: 'the same once more' });
    expect(take(known, again)).toEqual({ taken: 'duplicate', observations: known });
  });

  it('replaces what was known where it is marked as a correction', () => {
    const right = seen('12:55', '270 5', { corrects: true });
    expect(take([seen('12:55', '180 5')], right)).toEqual({ taken: 'corrected', observations: [right] });
  });

  it('does not undo a correction by coming once more uncorrected', () => {
    const known = [seen('12:55', '270 5', { corrects: true })];
    expect(take(known, seen('12:55', '180 5', { receivedAtMs: NOW })).taken).toBe('duplicate');
  });

  it('that tells something else for the same moment unmarked counts by when it was received', () => {
    const [first, second] = [seen('12:55', '180 5'), seen('12:55', '190 5', { receivedAtMs: NOW })];
    expect(take([first], second).taken).toBe('corrected');
    expect(take([second], first).taken).toBe('duplicate');
  });

  it('is refused from more than five minutes ahead, and where its time is no number', () => {
    expect(take([], seen(NOW + 5 * MINUTE_MS, '180 5')).taken).toBe('accepted');
    expect(take([], seen(NOW + 5 * MINUTE_MS + 1, '180 5'))).toEqual({ taken: 'future', observations: [] });
    expect(take([], seen(Number.NaN, '180 5')).taken).toBe('future');
  });

  it('plays no part where it is older than what the watch looks back on', () => {
    expect(take([], seen(NOW - 180 * MINUTE_MS, '180 5')).taken).toBe('accepted');
    expect(take([], seen(NOW - 180 * MINUTE_MS - 1, '180 5')).taken).toBe('too-old');
  });

  it('leaves the same behind in whatever order and how often all come', () => {
    const one = fc
      .record({
        station: fc.constantFrom('mast', 'KXYZ'),
        minute: fc.integer({ min: 0, max: 3 }),
        telling: fc.constantFrom([10, NOW - 2], [20, NOW - 1], [30, NOW - 1], [40, NOW]),
        corrects: fc.boolean(),
      })
      .map(({ station, minute, telling: [deg, receivedAtMs = NOW], corrects }) =>
        seen(NOW - minute * MINUTE_MS, `${deg} 5`, { station, receivedAtMs, corrects }),
      );
    const told = (observations: readonly Observation[]) =>
      observations.map(({ station, observedAtMs, wind, corrects }) => ({
        station,
        observedAtMs,
        wind,
        corrects,
      }));
    fc.assert(
      fc.property(fc.array(one, { maxLength: 12 }), fc.infiniteStream(fc.nat()), (incoming, random) => {
        const shuffled = [...incoming, ...incoming.slice(0, 3)]
          .map((o) => ({ o, key: random.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ o }) => o);
        expect(told(takeAll(shuffled))).toEqual(told(takeAll(incoming)));
        expect([...takeAll(incoming)].sort(byStationAndTime)).toEqual(takeAll(incoming));
      }),
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BurnTap, Tap } from '#core/watch/burn.ts';
import { foldTaps } from '#core/watch/fold-taps.ts';
import { tapOf, WHOLE_DAY } from '../../builders/tap.ts';
import { clock } from '../../builders/watch.ts';

const fold = (taps: readonly BurnTap[]) => foldTaps(taps, 'org/quarry-field', 180);
/** State, since when, lit when, closed when. */
const told = (taps: readonly BurnTap[]) => {
  const burn = fold(taps);
  return burn && [burn.state, burn.sinceMs, burn.litAtMs, burn.closedAtMs];
};

describe('a burn', () => {
  it('is what its taps say', () => {
    expect(fold(WHOLE_DAY)).toEqual({
      id: 'burn-1',
      site: 'org/quarry-field',
      state: 'covered',
      openedAtMs: clock('08:00'),
      litAtMs: clock('08:00'),
      sinceMs: clock('16:00'),
      closedAtMs: clock('16:00'),
      briefedFromDeg: 180,
    });
    expect(fold([])).toBeNull();
  });

  it('is open until it is covered', () => {
    for (const count of [1, 2, 3]) expect(fold(WHOLE_DAY.slice(0, count))?.closedAtMs).toBeNull();
  });

  it('put out early is still open: the pit has to be covered', () => {
    const early = [...WHOLE_DAY.slice(0, 2), tapOf('put-out-early', '11:00')];
    expect(told(early)).toEqual(['put-out-early', clock('11:00'), clock('08:00'), null]);
    expect(told([...early, tapOf('covered', '11:40')])).toEqual([
      'covered',
      clock('11:40'),
      clock('08:00'),
      clock('11:40'),
    ]);
  });

  it('lit twice was lit the first time', () => {
    expect(told([tapOf('lit', '08:00'), tapOf('lit', '08:07')])).toEqual([
      'lit',
      clock('08:00'),
      clock('08:00'),
      null,
    ]);
  });

  it('lit again after a cover is open again, and was lit then', () => {
    expect(told([...WHOLE_DAY, tapOf('lit', '16:30')])).toEqual([
      'lit',
      clock('16:30'),
      clock('16:30'),
      null,
    ]);
    expect(told([...WHOLE_DAY, tapOf('charging', '16:30')])?.[3]).toBeNull();
  });

  it('charged again after burning down burns', () => {
    const again = [...WHOLE_DAY.slice(0, 3), tapOf('charging', '14:50')];
    expect(told(again)).toEqual(['charging', clock('14:50'), clock('08:00'), null]);
  });

  it('whose light-up was not tapped is open all the same', () => {
    expect(told([tapOf('charging', '08:20')])).toEqual(['charging', clock('08:20'), null, null]);
  });
});

describe('taps', () => {
  it('that arrive late keep their own time', () => {
    const late = tapOf('lit', '08:00', { receivedAtMs: clock('12:00') });
    expect(told([...WHOLE_DAY.slice(1, 2), late])).toEqual([
      'charging',
      clock('08:20'),
      clock('08:00'),
      null,
    ]);
  });

  it('of a clock that runs ahead count from when they arrived', () => {
    const ahead = tapOf('covered', '18:00', { receivedAtMs: clock('16:00') });
    expect(told([...WHOLE_DAY.slice(0, 3), ahead])?.[3]).toBe(clock('16:00'));
  });

  it('of one moment come in the order in which things happen', () => {
    expect(told([tapOf('charging', '08:00'), tapOf('lit', '08:00')])?.[0]).toBe('charging');
  });

  it('sent twice count once, as they first came', () => {
    const again = { ...tapOf('lit', '08:30', { id: 'lit 08:00' }), receivedAtMs: clock('09:00') };
    expect(told([tapOf('lit', '08:00'), again])?.[2]).toBe(clock('08:00'));
    expect(told([again, tapOf('lit', '08:00')])?.[2]).toBe(clock('08:00'));
  });
});

describe('a correction', () => {
  const wrong = tapOf('covered', '15:00', { id: 'wrong' });
  const burning = WHOLE_DAY.slice(0, 3);

  it('counts in the place of what it corrects', () => {
    const right = tapOf('covered', '15:40', { corrects: 'wrong' });
    expect(told([...burning, wrong, right])?.[3]).toBe(clock('15:40'));
    expect(told([right, wrong, ...burning])?.[3]).toBe(clock('15:40'));
  });

  it('may be corrected itself, and what was replaced stays replaced', () => {
    const first = tapOf('covered', '15:40', { id: 'first', corrects: 'wrong' });
    const second = tapOf('covered', '15:50', { corrects: 'first' });
    expect(told([...burning, wrong, first, second])?.[3]).toBe(clock('15:50'));
  });

  it('of two the one that was received last counts', () => {
    const a = tapOf('covered', '15:50', { corrects: 'wrong', receivedAtMs: clock('16:00') });
    const b = tapOf('covered', '15:40', { corrects: 'wrong', receivedAtMs: clock('16:10') });
    expect(told([...burning, wrong, a, b])?.[3]).toBe(clock('15:40'));
    expect(told([...burning, b, wrong, a])?.[3]).toBe(clock('15:40'));
  });

  it('that withdraws says that it did not happen: the pit is open again', () => {
    const withdrawn = tapOf('covered', '15:10', { id: 'no', corrects: 'wrong', withdraws: true });
    expect(told([...burning, wrong, withdrawn])).toEqual([
      'burning-down',
      clock('14:30'),
      clock('08:00'),
      null,
    ]);
    expect(fold([wrong, withdrawn])).toBeNull();
  });

  it('withdrawn itself leaves what it corrected', () => {
    const withdrawn = tapOf('covered', '15:10', { id: 'no', corrects: 'wrong', withdraws: true });
    const undone = tapOf('covered', '15:20', { corrects: 'no', withdraws: true });
    expect(told([...burning, wrong, withdrawn, undone])?.[3]).toBe(clock('15:00'));
    const moved = tapOf('covered', '15:40', { id: 'moved', corrects: 'wrong' });
    const unmoved = tapOf('covered', '15:45', { corrects: 'moved', withdraws: true });
    expect(told([...burning, wrong, moved, unmoved])?.[3]).toBe(clock('15:00'));
  });

  it('of a tap that is not there yet counts by itself, and a withdrawal of one as nothing', () => {
    expect(told([...burning, tapOf('covered', '15:40', { corrects: 'lost' })])?.[3]).toBe(clock('15:40'));
    expect(
      told([...burning, tapOf('covered', '15:40', { corrects: 'lost', withdraws: true })])?.[3],
    ).toBeNull();
  });

  it('that corrects itself, or each other in a ring, ends', () => {
    const self = tapOf('covered', '15:40', { id: 'self', corrects: 'self' });
    expect(fold([...burning, self])).not.toBeNull();
    const ring = [
      tapOf('covered', '15:40', { id: 'a', corrects: 'b', withdraws: true }),
      tapOf('covered', '15:50', { id: 'b', corrects: 'a', withdraws: true }),
    ];
    expect(told([...burning, ...ring])?.[3]).toBeNull();
  });
});

describe('whatever is tapped', () => {
  const tapArb: fc.Arbitrary<BurnTap> = fc
    .record({
      tap: fc.constantFrom<Tap>('lit', 'charging', 'burning-down', 'covered', 'put-out-early'),
      minute: fc.integer({ min: 0, max: 5 }),
      id: fc.constantFrom('a', 'b', 'c', 'd', 'e'),
      corrects: fc.option(fc.constantFrom('a', 'b', 'c', 'lost')),
      withdraws: fc.boolean(),
    })
    .map(({ tap, minute, id, corrects, withdraws }) => ({
      ...tapOf(tap, `08:0${minute}`),
      // Each id is one tap: sent again it is the same.
      receivedAtMs: clock('09:00') + id.charCodeAt(0),
      id,
      corrects,
      withdraws: corrects !== null && withdraws,
    }));
  const tapsArb = fc.uniqueArray(tapArb, { selector: (t) => t.id });

  it('gives the same in whatever order and however often', () => {
    fc.assert(
      fc.property(tapsArb, (taps) => {
        expect(fold([...taps].reverse())).toEqual(fold(taps));
        expect(fold([...taps, ...taps])).toEqual(fold(taps));
      }),
    );
  });

  it('is closed only by a cover that is its last word', () => {
    fc.assert(
      fc.property(tapsArb, (taps) => {
        const burn = fold(taps);
        if (burn !== null) expect(burn.closedAtMs !== null).toBe(burn.state === 'covered');
      }),
    );
  });

  it('a fire tapped later than all is never closed', () => {
    fc.assert(
      fc.property(tapsArb, fc.constantFrom<Tap>('lit', 'charging'), (taps, tap) => {
        const burn = fold([...taps, tapOf(tap, '08:30', { id: 'last' })]);
        expect(burn?.closedAtMs).toBeNull();
      }),
    );
  });
});

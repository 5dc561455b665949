// A wind that goes on under a notice that was acknowledged is told once more; 45° is the bound of a turn (AFMAN 15-111,
// 7.4.5, as FMH-1).

import { describe, expect, it } from 'vitest';
import { windMovedOn } from '#core/notices/wind-moved-on.ts';
import { NO_FIGURES } from '#core/watch/condition.ts';
import { noticeMessage } from '../../builders/contacts.ts';
import { conditionOf, EIGHT_MS, gust, SITE, watched } from '../../builders/notices.ts';

const from = (windFromDeg: number | null, change = {}) =>
  conditionOf('wind-shifted', 'true', { figures: { ...NO_FIGURES, windFromDeg }, ...change });

interface Text {
  readonly acknowledged?: boolean;
  readonly rebriefed?: 'by it' | 'by another' | null;
  readonly stop?: boolean;
  readonly change?: object;
}

function movedFrom(toldDeg: number, nowDeg: number | null, text: Text = {}): readonly string[] {
  const { acknowledged = true, rebriefed = null, stop = false, change = {} } = text;
  const verdict = stop ? 'stop' : 'hold';
  const w = watched();
  const transitions = w.step(0, [from(toldDeg, { verdict })]);
  const notices = w.notices.map((n) => ({ ...n, acknowledgedAtMs: acknowledged ? EIGHT_MS : null }));
  const briefing = {
    id: 'a',
    burn: 'b',
    fromDeg: toldDeg,
    observedAtMs: EIGHT_MS,
    by: 'ana',
    atMs: EIGHT_MS,
  };
  const moved = windMovedOn({
    site: SITE,
    notices,
    conditions: [from(nowDeg, { verdict, ...change })],
    messages: [{ message: noticeMessage(transitions), deliveries: [], answers: [] }],
    rebriefed: rebriefed && { ...briefing, message: rebriefed === 'by it' ? 'm1' : 'm0' },
    atLeastDeg: 45,
  });
  return [...moved];
}
const KEY = [`${SITE} wind-shifted `];

describe('a wind that goes on from what was told', () => {
  it.each([
    [200, 245],
    [200, 155],
    [330, 15],
    [15, 330],
    [360, 45],
    [360, 315],
    [10, 190],
  ])('from %d to %d is told once more', (toldDeg, nowDeg) => {
    expect(movedFrom(toldDeg, nowDeg)).toEqual(KEY);
  });

  it.each([
    [200, 244],
    [330, 14],
    [350, 34],
    [10, 326],
    [360, 360],
    [200, null],
  ])('from %d to %s is not', (toldDeg, nowDeg) => {
    expect(movedFrom(toldDeg, nowDeg)).toEqual([]);
  });

  it('is told by the repeats while nobody has answered', () => {
    expect(movedFrom(200, 260, { acknowledged: false })).toEqual([]);
  });

  it('is left to the drift where the crew goes by what it acknowledged, but not beside a stop, which mutes that', () => {
    expect(movedFrom(200, 260, { rebriefed: 'by it' })).toEqual([]);
    expect(movedFrom(200, 260, { rebriefed: 'by it', stop: true })).toEqual(KEY);
    expect(movedFrom(200, 260, { rebriefed: 'by another' })).toEqual(KEY);
  });

  it('is none where nobody can say, and of what is no wind', () => {
    expect(movedFrom(200, 260, { change: { truth: 'unknown' } })).toEqual([]);
    const w = watched();
    const transitions = w.step(0, [gust('true')]);
    const input = {
      site: SITE,
      notices: w.notices.map((n) => ({ ...n, acknowledgedAtMs: EIGHT_MS })),
      conditions: [gust('true', 'hold', { figures: { ...NO_FIGURES, windFromDeg: 10 } })],
      messages: [{ message: noticeMessage(transitions), deliveries: [], answers: [] }],
      rebriefed: null,
      atLeastDeg: 45,
    };
    expect(windMovedOn(input).size).toBe(0);
  });

  it('is told with its new direction, and asks for an answer anew', () => {
    const w = watched();
    w.step(0, [from(200)]);
    const again = { again: new Set(KEY) };
    const [told] = w.step(5, [from(250)], again as object);
    expect(told).toMatchObject({
      kind: 'still',
      verdict: 'hold',
      condition: { figures: { windFromDeg: 250 } },
    });
    expect(w.notices[0]?.acknowledgedAtMs).toBeNull();
  });
});

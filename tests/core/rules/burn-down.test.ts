import { describe, expect, it } from 'vitest';
import { burnDown, shortestRun } from '#core/rules/burn-down.ts';
import { type Finding, finding, forcesOut, worseOf } from '#core/rules/finding.ts';
import type { BurnTimes } from '#core/site/site.ts';
import { one, told } from '../../builders/findings.ts';
import { contextOf, inputOf } from '../../builders/plan.ts';
import { PLAIN_SITE, siteWith } from '../../builders/site.ts';
import { at } from '../../builders/time.ts';

const DATE = '2026-03-02';
const span = (from: string, to: string) => ({ fromMs: at(`${DATE} ${from}`), toMs: at(`${DATE} ${to}`) });
const contextFor = (burn: Partial<BurnTimes> = {}) =>
  contextOf(inputOf({ site: siteWith({ burn: { ...PLAIN_SITE.burn, ...burn } }) }));
const ahead = (found: readonly Finding[], burn: Partial<BurnTimes> = {}) =>
  told(burnDown(contextFor(burn), found), DATE);

const stop = (from: string, to: string) => finding('off-shift', 'stop', span(from, to), {});
const unknown = (from: string, to: string) => finding('not-judged', 'hold', span(from, to), {}, true);
const hold = (from: string, to: string) =>
  finding('clock-before', 'hold', span(from, to), { clock: '08:00', source: 'permit' });
const smoke = (from: string, to: string) =>
  finding('smoke-reaches', 'hold', span(from, to), {
    place: 'school',
    windFromDeg: 270,
    smokeToDeg: 90,
    distanceM: 500,
    windSpeedMps: 3,
  });

describe('charging before something that forces the fire out', () => {
  it('is held for burn-down and cover: 60 and 30 minutes', () => {
    expect(ahead([stop('15:00', '16:00')])).toEqual(['hold burn-down-ahead 13:30-15:00']);
  });

  it('is held before smoke on a protected place and before what nobody can say', () => {
    expect(ahead([smoke('15:00', '16:00')])).toEqual(['hold burn-down-ahead 13:30-15:00']);
    expect(ahead([unknown('15:00', '16:00')])).toEqual(['hold burn-down-ahead 13:30-15:00']);
  });

  it('is not held before a plain hold: the fire may burn on', () => {
    expect(ahead([hold('15:00', '16:00')])).toEqual([]);
  });

  it('is held once before spans that touch, and names only what begins first', () => {
    const findings = burnDown(contextFor(), [
      stop('15:00', '16:00'),
      smoke('16:00', '17:00'),
      unknown('15:00', '15:30'),
    ]);
    expect(told(findings, DATE)).toEqual(['hold burn-down-ahead 13:30-15:00']);
    expect(one(findings, 'burn-down-ahead').figures).toEqual({
      causes: ['off-shift', 'not-judged'],
      atMs: at(`${DATE} 15:00`),
      neededMin: 90,
    });
  });

  it('is unknown only where all that comes is unknown', () => {
    const unknownOf = (found: Finding[]) => one(burnDown(contextFor(), found), 'burn-down-ahead').unknown;
    expect([
      unknownOf([unknown('15:00', '16:00')]),
      unknownOf([unknown('15:00', '16:00'), stop('15:00', '16:00')]),
    ]).toEqual([true, false]);
  });

  it('between two of them is held before the second too, also over the first', () => {
    expect(ahead([stop('10:00', '11:00'), stop('12:00', '13:00')])).toEqual([
      'hold burn-down-ahead 08:30-10:00',
      'hold burn-down-ahead 10:30-12:00',
    ]);
  });

  it('of a fire that is out at once is not held, and of one that burns all day is held all day', () => {
    expect(ahead([stop('15:00', '16:00')], { burnDownMin: 0, coverMin: 0 })).toEqual([]);
    expect(ahead([stop('15:00', '16:00')], { burnDownMin: 1440, coverMin: 0 })).toEqual([
      'hold burn-down-ahead 2026-03-01 15:00-15:00',
    ]);
  });
});

describe('what forces a fire out', () => {
  it('is a stop, smoke on a place, and what nobody can say; not advice and not a plain hold', () => {
    const advice = finding('within-limits', 'go', span('10:00', '11:00'), {});
    const found = [
      stop('10:00', '11:00'),
      smoke('10:00', '11:00'),
      unknown('10:00', '11:00'),
      hold('10:00', '11:00'),
      advice,
    ];
    expect(found.map(forcesOut)).toEqual([true, true, true, false, false]);
  });

  it('of two verdicts the worse is the graver', () => {
    expect([worseOf('go', 'hold'), worseOf('stop', 'hold'), worseOf('go', 'go')]).toEqual([
      'hold',
      'stop',
      'go',
    ]);
  });
});

describe('the shortest run worth lighting', () => {
  const met = (from: string, to: string) => finding('within-limits', 'go', span(from, to), {});
  const short = (found: readonly Finding[], burn: Partial<BurnTimes> = {}) =>
    told(shortestRun(contextFor(burn), found), DATE);

  it('of two hours: a go of 119 minutes is a hold that says so, one of 120 is a go', () => {
    expect(short([met('10:00', '11:59')])).toEqual(['hold short-run 10:00-11:59']);
    expect(short([met('10:00', '12:00')])).toEqual([]);
    expect(one(shortestRun(contextFor(), [met('10:00', '11:00')]), 'short-run').figures).toEqual({
      lengthMin: 60,
      neededMin: 120,
    });
  });

  it('is measured between what bars: a hold in the middle makes two short ones', () => {
    expect(short([met('10:00', '13:00'), hold('11:00', '11:30')])).toEqual([
      'hold short-run 10:00-11:00',
      'hold short-run 11:30-13:00',
    ]);
  });

  it('is not broken by two runs that touch', () => {
    expect(short([met('10:00', '11:00'), met('11:00', '12:00')])).toEqual([]);
  });

  it('of nothing asks nothing', () => {
    expect(short([met('10:00', '10:01')], { shortestRunMin: 0, kindlingMin: 0 })).toEqual([]);
    // Kindling takes 20 minutes here: a shorter go would end before its first charge.
    expect(short([met('10:00', '10:19')], { shortestRunMin: 0 })).toEqual(['hold short-run 10:00-10:19']);
  });
});

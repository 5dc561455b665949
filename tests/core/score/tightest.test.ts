import { describe, expect, it } from 'vitest';
import { scoreHours } from '#core/score/score-hours.ts';
import { fractionOf, hourScore, tightestOver } from '#core/score/tightest.ts';
import { columnOf, core } from '../../builders/forecast.ts';
import { limitOf } from '../../builders/limits.ts';

const mph = (n: number) => core('windSpeed', `${n} mph`);
const wind = limitOf('windSpeed', { high: { hold: '12 mph' } });
const humidity = limitOf('relativeHumidity', { low: { hold: '30 %' } });
const always = () => true;

const scores = [
  scoreHours(columnOf([mph(6), mph(9), mph(11.4), null]), wind), // room 6/12, 3/12, 0.6/12
  scoreHours(columnOf([45, 33, 36, 31]), humidity), // room 15/30, 3/30, 6/30, 1/30
];

describe('the tightest limit', () => {
  it('of an hour is the one with the least room as a fraction of its bound', () => {
    expect(tightestOver(scores, 1, 2, always)).toMatchObject({ limitIndex: 1, hour: 1, class: 'go' });
    expect(tightestOver(scores, 2, 3, always)).toMatchObject({ limitIndex: 0, hour: 2 });
    expect(tightestOver(scores, 2, 3, always)?.roomFraction).toBeCloseTo(0.05, 9);
  });

  it('of a run of hours is the least of all of them', () => {
    expect(tightestOver(scores, 0, 3, always)).toMatchObject({ limitIndex: 0, hour: 2 });
    expect(tightestOver(scores, 0, 2, always)).toMatchObject({ limitIndex: 1, hour: 1 });
  });

  it('passes over missing hours and limits that do not apply', () => {
    expect(tightestOver(scores, 3, 4, (limit) => limit === 0)).toBeNull();
    expect(tightestOver(scores, 0, 3, (limit) => limit === 1)).toMatchObject({ limitIndex: 1, hour: 1 });
  });

  it('is none outside of the hours', () => {
    expect(tightestOver(scores, 9, 12, always)).toBeNull();
    expect(tightestOver(scores, -3, 0, always)).toBeNull();
    expect(tightestOver([], 0, 3, always)).toBeNull();
  });

  it('of a broken limit is negative and before every met one', () => {
    const broken = [...scores, scoreHours(columnOf([25, 25, 25, 25]), humidity)];
    expect(tightestOver(broken, 0, 1, always)).toMatchObject({ limitIndex: 2, class: 'hold', room: -5 });
  });
});

describe('one hour under one limit', () => {
  it('has its class, room and bound', () => {
    expect(hourScore(scores, 1, 0)).toMatchObject({
      class: 'go',
      room: 15,
      roomFraction: 0.5,
      bound: { value: 30, unit: '%' },
      boundIndex: 1,
    });
  });

  it('has no score where there is no value, no such hour and no such limit', () => {
    expect([hourScore(scores, 0, 3), hourScore(scores, 0, 9), hourScore(scores, 7, 0)]).toEqual([
      null,
      null,
      null,
    ]);
  });
});

describe('room as a fraction', () => {
  it('is of the bound, or of the scale of the element where the bound is zero', () => {
    expect([fractionOf(5, 20, 10), fractionOf(5, -20, 10), fractionOf(5, 0, 10)]).toEqual([0.25, 0.25, 0.5]);
  });
});

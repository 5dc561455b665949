// One text for one site and one evaluation.

import { expect, it } from 'vitest';
import { mergeMessage } from '#core/notices/merge-message.ts';
import type { Transition } from '#core/notices/notice.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { transitionOf } from '../../builders/contacts.ts';
import { conditionOf, EIGHT_MS, gust, SITE, shift, watched } from '../../builders/notices.ts';

const hash = (text: string): string => `#${text}`;

const merged = (transitions: readonly Transition[], change: object = {}) =>
  mergeMessage({ site: SITE, transitions, notices: [], burnOpen: true, nowMs: EIGHT_MS, hash, ...change });

it('nothing to tell is no message, and what is only for the record is nothing to tell', () => {
  expect(merged([])).toBeNull();
  expect(merged([transitionOf({ inhibited: true })])).toBeNull();
});

it('all that changed is one message, the worst first, what was observed before what is expected', () => {
  const w = watched();
  w.step(0, [conditionOf('thunder-near', 'true')]);
  for (let minute = 1; minute <= 10; minute += 1) w.step(minute, [conditionOf('thunder-near', 'false')]);
  const transitions = w.step(11, [
    conditionOf('thunder-near', 'false'),
    conditionOf('plan-moved', 'true', { basis: 'forecast', verdict: 'go' }),
    shift('true', 'hold', { holdsForMs: 0 }),
    conditionOf('plan-worse', 'true', { basis: 'forecast' }),
    gust('true', 'stop'),
  ]);
  const message = merged(transitions, { notices: w.notices });
  expect(message).toMatchObject({ verdict: 'stop', needsAnswer: true, kind: 'notice' });
  expect(message?.transitions.map((t) => `${t.kind} ${t.condition.code}`)).toEqual([
    'raised observed-beyond-limit',
    'raised wind-shifted',
    'raised plan-worse',
    'raised plan-moved',
    'over thunder-near',
  ]);
});

it('has the same id whoever makes it and whenever, and another where it says anything else', () => {
  const one = merged([transitionOf(), transitionOf({ condition: shift('true') })]);
  const again = merged([transitionOf({ condition: shift('true') }), transitionOf()], { nowMs: EIGHT_MS + 1 });
  expect(again?.id).toBe(one?.id);
  const ids = [
    one,
    merged([transitionOf()]),
    merged([transitionOf({ number: 2 })]),
    merged([transitionOf({ episode: '2' })]),
    merged([transitionOf({ kind: 'worse' })]),
    merged([transitionOf()], { site: 'fern-hollow/south-block' }),
  ].map((message) => message?.id);
  expect(new Set(ids).size).toBe(ids.length);
});

it('demands what it tells; what is taken back leaves what still stands, and go only where nothing does', () => {
  const over = transitionOf({ kind: 'over', verdict: 'go', was: 'stop' });
  expect(merged([over])?.verdict).toBe('go');
  const w = watched();
  w.step(0, [shift('true', 'hold', { holdsForMs: 0 })]);
  expect(merged([over], { notices: w.notices })?.verdict).toBe('hold');
  expect(merged([over, transitionOf({ condition: gust('true', 'go') })])?.verdict).toBe('go');
});

it('demands no less than what stands beside what it tells: a hold after a stop is no end of the stop', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  const stale = conditionOf('forecast-stale', 'true', { basis: 'forecast' });
  const later = w.step(5, [gust('true', 'stop'), stale]);
  expect(merged(later, { notices: w.notices })).toMatchObject({
    verdict: 'stop',
    transitions: [{ verdict: 'hold' }],
  });
  for (let minute = 6; minute <= 15; minute += 1) w.step(minute, [gust('false', 'stop'), stale]);
  const over = w.step(16, [gust('false', 'stop'), stale]);
  expect(over.map(({ kind }) => kind)).toEqual(['over']);
  expect(merged(over, { notices: w.notices })?.verdict).toBe('hold');
});

it('needs an answer where a hold or stop is told while a burn is open, and never where it takes back', () => {
  const needs = (transition: Transition, burnOpen: boolean) =>
    merged([transition], { burnOpen })?.needsAnswer;
  expect(needs(transitionOf(), true)).toBe(true);
  expect(needs(transitionOf({ condition: gust('true', 'hold') }), true)).toBe(true);
  expect(needs(transitionOf({ kind: 'unsure', verdict: 'hold' }), true)).toBe(true);
  expect(needs(transitionOf({ condition: gust('true', 'go') }), true)).toBe(false);
  expect(needs(transitionOf(), false)).toBe(false);
  for (const kind of ['over', 'eased', 'corrected'] as const) {
    expect(needs(transitionOf({ kind, verdict: kind === 'eased' ? 'hold' : 'go' }), true)).toBe(false);
  }
});

it('is good for as long as the longest of its parts, and for an hour where an answer is waited for', () => {
  const until = (min: number) => ({ validUntilMs: EIGHT_MS + min * MINUTE_MS });
  const parts = [10, 90, 20].map((min) => transitionOf({ condition: gust('true', 'hold', until(min)) }));
  const minutes = (message: ReturnType<typeof merged>) =>
    ((message?.validUntilMs ?? 0) - EIGHT_MS) / MINUTE_MS;
  expect(minutes(merged(parts, { burnOpen: false }))).toBe(90);
  expect(minutes(merged(parts.slice(0, 1), { burnOpen: false }))).toBe(10);
  expect(minutes(merged(parts.slice(0, 1)))).toBe(60);
  for (const odd of [-1, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(minutes(merged([transitionOf({ condition: gust('true', 'hold', until(odd)) })]))).toBe(60);
  }
});

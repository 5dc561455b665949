// Notices step by step: worse at once, better slowly, unknown never better, and the same after a restart: between any two
// steps the state goes through JSON. Numbers such as alertmanager#4008 name public reports of other alerting systems.

import { expect, it } from 'vitest';
import { conditionOf, EIGHT_MS, gust, SITE, shift, watched } from '../../builders/notices.ts';

const MIN = 60_000;

it('is told at once where it needs not hold, and once only however often it is judged', () => {
  const w = watched();
  for (let minute = 0; minute < 30; minute += 1) w.step(minute, [gust('true')]);
  expect(w.said).toEqual(['0 raised hold observed-beyond-limit']);
  expect(w.notices).toMatchObject([
    {
      key: `${SITE} observed-beyond-limit windGust`,
      phase: 'raised',
      told: 'hold',
      number: 1,
      raisedAtMs: EIGHT_MS,
      sinceMs: EIGHT_MS,
    },
  ]);
});

it('is told when it has held for its time, and not before; a false in between begins anew', () => {
  const w = watched();
  for (const minute of [0, 1, 2, 3, 4]) w.step(minute, [shift('true')]);
  expect(w.notices).toMatchObject([{ phase: 'pending', sinceMs: EIGHT_MS }]);
  w.step(4.5, [shift('false')]);
  for (const minute of [5, 6, 7, 8, 9]) w.step(minute, [shift('true')]);
  expect(w.said).toEqual([]);
  w.step(10, [shift('true')]);
  expect(w.said).toEqual(['10 raised hold wind-shifted']);
});

it('a worsening is told at once, as what it was before and what it is now', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  const [worse] = w.step(0.1, [gust('true', 'stop')]);
  expect(worse).toMatchObject({ kind: 'worse', verdict: 'stop', was: 'hold', number: 2 });
});

it('an easing is told when it has held, to the worst of that time', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  for (let minute = 1; minute <= 10; minute += 1) w.step(minute, [gust('true', 'hold')]);
  expect(w.said).toHaveLength(1);
  w.step(11, [gust('true', 'hold')]);
  expect(w.said.at(-1)).toBe('11 eased hold observed-beyond-limit');
  // Stop again is worse again, and told again.
  w.step(12, [gust('true', 'stop')]);
  expect(w.said.at(-1)).toBe('12 worse stop observed-beyond-limit');
});

it('is over when it has been false for its time, and says when it was raised', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  for (let minute = 20; minute < 30; minute += 1) w.step(minute, [gust('false')]);
  expect(w.notices).toMatchObject([{ phase: 'clearing', sinceMs: EIGHT_MS + 20 * MIN }]);
  const [over] = w.step(30, [gust('false')]);
  expect(over).toMatchObject({ kind: 'over', verdict: 'go', was: 'hold', raisedAtMs: EIGHT_MS, number: 2 });
  expect(w.notices).toMatchObject([{ phase: 'quiet', told: null }]);
});

it('row 1 and 3: a restart at any step loses and repeats nothing, and no hold time begins anew (grafana#68162, prometheus#422)', () => {
  // `watched` restarts between any two steps. Steps at other moments in between change nothing either.
  const sparse = watched();
  for (const minute of [0, 5]) sparse.step(minute, [shift('true')]);
  expect(sparse.said).toEqual(['5 raised hold wind-shifted']);
  const [before] = sparse.notices;
  sparse.step(5, [shift('true')]);
  expect(sparse.notices[0]).toEqual(before);
  expect(sparse.said).toHaveLength(1);
});

it('row 3: settings that are loaded anew keep since-times and episodes (alertmanager#3407)', () => {
  const w = watched();
  w.step(0, [shift('true')]);
  w.step(3, [shift('true', 'hold', { holdsForMs: 4 * MIN })]);
  w.step(4, [shift('true', 'hold', { holdsForMs: 4 * MIN })]);
  const [{ episode } = { episode: '' }] = w.notices;
  w.step(5, [shift('true', 'hold', { holdsForMs: 8 * MIN, clearsForMs: 20 * MIN })]);
  expect(w.notices).toMatchObject([{ episode, phase: 'raised' }]);
  expect(w.said).toEqual(['4 raised hold wind-shifted']);
});

it('row 6: transitions of an episode are numbered, and what comes after over is another episode (alertmanager#4008)', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  w.step(1, [gust('true', 'stop')]);
  for (let minute = 2; minute <= 12; minute += 1) w.step(minute, [gust('false')]);
  w.step(200, [gust('true')]);
  expect(w.told.map((t) => [t.number, t.kind])).toEqual([
    [1, 'raised'],
    [2, 'worse'],
    [3, 'over'],
    [1, 'raised'],
  ]);
  expect(w.told[3]?.episode).not.toBe(w.told[0]?.episode);
  expect(new Set(w.told.slice(0, 3).map((t) => t.episode)).size).toBe(1);
});

it('row 14: one judgement that is late or lacking ends nothing (prometheus#5277)', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  w.step(45, [], { unlisted: 'unknown' });
  w.step(300, [], { unlisted: 'false' });
  expect(w.said).toEqual(['0 raised hold observed-beyond-limit']);
});

it('row 15: an end at the very moment of the beginning, and one in the future, end nothing too soon (alertmanager#1233)', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  w.step(0, [gust('false')]);
  w.step(0, [gust('false', 'hold', { validUntilMs: EIGHT_MS - 1 })]);
  expect(w.said).toHaveLength(1);
  expect(w.notices).toMatchObject([{ phase: 'clearing' }]);
});

it('row 16: until everything has been judged once, what is not listed is unknown and ends nothing (alertmanager#2229)', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  w.step(1, [shift('true', 'hold', { holdsForMs: 0 })], { unlisted: 'unknown' });
  // The stop still inhibits, though its source is not there yet.
  expect(w.said).toEqual(['0 raised stop observed-beyond-limit']);
  expect(w.notices.map((n) => n.phase)).toEqual(['unsure', 'raised']);
});

it('row 21: unknown is never over, and is told once while a burn is open (ai-dba-workbench#407)', () => {
  const w = watched();
  w.step(0, [gust('true', 'stop')]);
  for (let minute = 1; minute < 500; minute += 1) w.step(minute, [gust('unknown', 'stop')]);
  expect(w.said).toEqual(['0 raised stop observed-beyond-limit', '6 unsure stop observed-beyond-limit']);
  expect(w.told[1]?.condition.truth).toBe('unknown');
});

it('row 21: without an open burn nobody is told that it is unknown; once one is lit, they are', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  for (let minute = 1; minute < 60; minute += 1) w.step(minute, [gust('unknown')], { burnOpen: false });
  expect(w.said).toHaveLength(1);
  w.step(60, [gust('unknown')]);
  expect(w.said.at(-1)).toBe('60 unsure hold observed-beyond-limit');
});

it('row 22: after unknown the time to clear begins anew, and what is pending stays so (grafana#16290)', () => {
  const w = watched();
  w.step(0, [gust('true')]);
  for (let minute = 1; minute <= 9; minute += 1) w.step(minute, [gust('false')]);
  w.step(10, [gust('unknown')]);
  for (let minute = 11; minute <= 20; minute += 1) w.step(minute, [gust('false')]);
  expect(w.said).toHaveLength(1);
  w.step(21, [gust('false')]);
  expect(w.said.at(-1)).toBe('21 over go observed-beyond-limit');
  const pending = watched();
  pending.step(0, [shift('true')]);
  for (let minute = 1; minute < 5; minute += 1) pending.step(minute, [shift('unknown')]);
  expect(pending.said).toEqual([]);
  pending.step(5, [shift('true')]);
  expect(pending.said).toEqual(['5 raised hold wind-shifted']);
});

it('row 22: a thing that was never true is not told because it is unknown', () => {
  const w = watched();
  for (let minute = 0; minute < 60; minute += 1) w.step(minute, [gust('unknown')]);
  expect(w).toMatchObject({ notices: [], told: [] });
});

it('row 17: what is no longer watched ends as told, and what was never told ends silently (alertmanager#3097)', () => {
  const w = watched();
  w.step(0, [gust('true'), shift('true')]);
  w.step(1, []);
  expect(w.said).toEqual(['0 raised hold observed-beyond-limit', '1 corrected go observed-beyond-limit']);
  w.step(2, []);
  expect(w.told).toHaveLength(2);
  expect(w.notices.map((n) => n.phase)).toEqual(['quiet', 'quiet']);
});

it('what is not listed, where all that is true is listed, is over after its time', () => {
  const w = watched();
  const alert = conditionOf('official-alert', 'true', { subject: 'urn:1' });
  w.step(0, [alert]);
  for (let minute = 1; minute <= 11; minute += 1) w.step(minute, [], { unlisted: 'false' });
  expect(w.said).toEqual(['0 raised hold official-alert', '11 over go official-alert']);
});

it('of two conditions about the same thing the worse one counts, in whichever order they come', () => {
  for (const conditions of [
    [gust('true', 'stop'), gust('true', 'hold'), gust('false')],
    [gust('false'), gust('true', 'hold'), gust('true', 'stop')],
  ]) {
    const w = watched();
    w.step(0, conditions);
    expect(w.said).toEqual(['0 raised stop observed-beyond-limit']);
  }
});

it('a hold or clear time that is no number never keeps anything from being told, and never ends anything', () => {
  const w = watched();
  w.step(0, [gust('true', 'hold', { holdsForMs: Number.NaN, clearsForMs: Number.NaN })]);
  expect(w.said).toHaveLength(1);
  for (let minute = 1; minute < 90; minute += 1) {
    w.step(minute, [gust('false', 'hold', { clearsForMs: Number.NaN })]);
  }
  expect(w.said).toHaveLength(1);
});

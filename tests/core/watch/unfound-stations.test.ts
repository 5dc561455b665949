import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from '#core/units/time.ts';
import { judgeWatch } from '#core/watch/judge-watch.ts';
import { AIRPORT, PERSON } from '../../builders/watch.ts';
import { type WatchText, watchInput } from '../../builders/watch-input.ts';

const ENTRY = { ...AIRPORT, id: 'airfield' };
const FOUND = { ...AIRPORT, id: 'airfield-KXYZ' };
const stations = (text: WatchText) =>
  judgeWatch(watchInput({ observations: [], stations: [], ...text })).filter((c) =>
    c.code.startsWith('station-'),
  );

describe('after a restart, while nobody has said which stations are the nearest', () => {
  it('that one was silent is not over: nobody can say', () => {
    const before = stations({ stations: [FOUND], now: '12:59' });
    expect(before).toContainEqual(expect.objectContaining({ code: 'station-silent', truth: 'true' }));
    const after = stations({ unfound: [ENTRY], before });
    expect(after.find((c) => c.code === 'station-silent' && c.subject === FOUND.id)?.truth).toBe('unknown');
    // Once they are found it is judged again, or over where it is none of them.
    const found = stations({ stations: [FOUND], before: after });
    expect(found.find((c) => c.code === 'station-silent' && c.subject === FOUND.id)?.truth).toBe('true');
    expect(found.find((c) => c.subject === ENTRY.id)?.truth).toBe('false');
  });

  it('that a burning pit has nobody who tells the wind is a hold, told once a station may be silent so long', () => {
    expect(stations({ unfound: [ENTRY] })).toEqual([
      expect.objectContaining({
        code: 'station-silent',
        subject: 'airfield',
        truth: 'true',
        verdict: 'hold',
        holdsForMs: 2.5 * ENTRY.periodMin * MINUTE_MS,
      }),
    ]);
    expect(stations({ unfound: [ENTRY], burn: null })).toEqual([]);
  });

  it('a meter that nobody has read yet is no station gone silent, whatever else there is', () => {
    const silent = (text: WatchText) =>
      stations(text)
        .filter((c) => c.code === 'station-silent' && c.subject === PERSON.id)
        .map((c) => c.truth);
    expect(silent({ unfound: [ENTRY], stations: [PERSON], burn: null })).toEqual(['false']);
    expect(silent({ unfound: [], stations: [PERSON], burn: null })).toEqual(['false']);
  });
});

// A long name never pushes a figure out of a text: names are shortened first; the direction, the speed, the way of the smoke
// and what stands before them stay, in one segment by an independent counter.

import fc from 'fast-check';
import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import type { TransitionKind } from '#core/notices/notice.ts';
import { coreOf } from '#core/units/quantity.ts';
import type { ConditionCode } from '#core/watch/condition.ts';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { at, notice, request, transition, ZONE } from './requests.ts';

const WORDS = [
  'Rancho',
  'Grande',
  'Señor',
  'de los',
  'Álamo',
  'North',
  'Orchard',
  'Block',
  '–',
  '“B”',
  'Pit',
  '112',
  '€',
  '木材',
  'Airport',
];
const anyName = fc.oneof(
  fc.array(fc.constantFrom(...WORDS), { minLength: 1, maxLength: 14 }).map((words) => words.join(' ')),
  fc.string({ minLength: 1, maxLength: 90 }),
  fc.string({ minLength: 1, maxLength: 60, unit: 'grapheme' }),
);

const COMPASS = { en: 'southeast', es: 'sureste' };
const WAY = { en: 'northwest', es: 'noroeste' };

const CODES: readonly ConditionCode[] = ['wind-shifted', 'wind-drifted', 'smoke-turned-to-place'];
const KINDS: readonly TransitionKind[] = ['raised', 'worse', 'still', 'unsteady'];

describe('a wind told with names of any length', () => {
  it('keeps its order, its direction, its speed and where the smoke goes, in one segment', () => {
    const seed = 20261126;
    fc.assert(
      fc.property(
        fc.record({
          site: anyName,
          station: anyName,
          place: anyName,
          code: fc.constantFrom(...CODES),
          kind: fc.constantFrom(...KINDS),
          language: fc.constantFrom('en' as const, 'es' as const),
          role: fc.constantFrom('crew' as const, 'office' as const),
          far: fc.boolean(),
          repeat: fc.integer({ min: 0, max: 2 }),
          more: fc.boolean(),
          mph: fc.integer({ min: 3, max: 248 }),
          tomorrow: fc.boolean(),
        }),
        ({ site, station, place, code, kind, language, role, far, repeat, more, mph, tomorrow }) => {
          const one = transition({
            code,
            kind,
            verdict: 'hold',
            figures: {
              windFromDeg: 135,
              windSpeedMps: coreOf(mph, 'mph'),
              gustMps: coreOf(58, 'mph'),
              wasFromDeg: 225,
              atMs: at('13:35'),
              place,
              station: 'pit',
              what: 'ours',
            },
          });
          const validUntilMs = tomorrow ? at('22:58', '2026-03-03') : at('14:15');
          const { text, fault } = renderText(
            request(
              { ...notice(more ? [one, one, one] : [one]), validUntilMs },
              {
                site: { name: site, timeZone: ZONE },
                reader: { language, units: 'us', role },
                repeat,
                escalated: repeat > 1,
                stationName: () => station,
                stationOf: () => (far ? { kind: 'near', distanceM: 29_900, periodMin: 60 } : null),
              },
            ),
          );
          expect(fault, text).toBeNull();
          const segmented = new SegmentedMessage(text, 'auto');
          expect([segmented.encodingName, segmented.segmentsCount], text).toEqual(['GSM-7', 1]);
          expect(text).toContain(COMPASS[language]);
          expect(text).toContain(` ${mph} mph`);
          // The office that is called last may read it from the wind.
          if (code !== 'smoke-turned-to-place' && role === 'crew') expect(text).toContain(WAY[language]);
          expect(text).toMatch(language === 'en' ? /NO WOOD/ : /NO ECHEN LEÑA/);
        },
      ),
      { numRuns: 600, seed },
    );
  });
});

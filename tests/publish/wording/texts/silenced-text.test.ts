// A silence that is in force, told in the evening and dawn texts.

import fc from 'fast-check';
import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import type { Silence } from '#core/notices/silence.ts';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { at, dayMessage, es, request, summary, ZONE } from './requests.ts';

const silence = (change: Partial<Silence> = {}): Silence => ({
  ...{ id: 's', site: 'own/pit-7', code: null, fromMs: at('16:00'), untilMs: at('18:30') },
  ...{ reason: 'on the radio', by: 'Ana', role: 'office', endedAtMs: null, endedBy: null },
  ...change,
});
const evening = dayMessage('evening', summary());
const said = (silences: readonly Silence[], more: object = {}) =>
  renderText(request(evening, { silences, ...more }));

describe('a silence in a day text', () => {
  it('is named with its end and its author, and nothing of it where there is none', () => {
    expect(said([silence()]).text).toContain('Texts silenced until 6:30 pm by Ana.');
    expect(said([silence()], { reader: es }).text).toContain('Textos en silencio hasta 6:30 pm por Ana.');
    expect(said([]).text).not.toMatch(/silence/);
    expect(said([silence()]).body).toContain('Texts silenced until 6:30 pm by Ana.');
  });

  it('of one thing, or of the crew, which lets an observed stop through, is one of some texts', () => {
    for (const change of [{ code: 'wind-shifted' }, { role: 'crew' }] as const) {
      expect(said([silence(change)]).text).toContain('Some texts silenced until 6:30 pm by Ana.');
    }
    const longer = silence({ code: 'wind-shifted', untilMs: at('19:30') });
    expect(said([longer, silence(), silence({ untilMs: at('17:30') })]).text).toContain(
      'Texts silenced until 6:30 pm by Ana.',
    );
  });

  it('stays one segment with names of any length, and takes nothing from the order and the times', () => {
    const anyName = fc.oneof(
      fc.string({ maxLength: 60, unit: 'grapheme' }),
      fc.constantFrom(
        'Stop End Alto',
        'Señora María de los Ángeles Hernández – “Tía” 木材',
        '€€€€€€€€€€€€€€€€',
      ),
    );
    let told = 0;
    fc.assert(
      fc.property(
        anyName,
        anyName,
        fc.constantFrom('en' as const, 'es' as const),
        fc.boolean(),
        fc.boolean(),
        (by, name, language, tomorrow, dawn) => {
          const untilMs = tomorrow ? at('22:30', '2026-03-04') : at('18:30');
          const message = dawn ? dayMessage('dawn', summary(), []) : evening;
          const { text, fault } = renderText(
            request(message, {
              silences: [silence({ by, untilMs })],
              site: { name, timeZone: ZONE },
              reader: { language, units: 'us', role: 'crew' },
            }),
          );
          expect(fault, text).toBeNull();
          const segmented = new SegmentedMessage(text, 'auto');
          expect([segmented.encodingName, segmented.segmentsCount], text).toEqual(['GSM-7', 1]);
          expect(text).toMatch(/(GO|ADELANTE)\..* 9:00 am.* 2:30 pm.* 4:00 pm/);
          // It gives way as a whole: its end is never cut off.
          if (/silenc|No texts|Sin textos/.test(text)) {
            told += 1;
            expect(text).toContain(tomorrow ? '10:30 pm' : '6:30 pm');
          }
        },
      ),
      { numRuns: 300, seed: 20261125 },
    );
    expect(told).toBeGreaterThan(150);
  });
});

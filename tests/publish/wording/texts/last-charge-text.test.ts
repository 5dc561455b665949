// What a crew is told of its last charge when the forecast is too old to plan by: the time, and that the forecast is old.

import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { at, es, notice, request, transition, ZONE } from './requests.ts';

const LONG = 'Rancho Grande del Álamo y Señor de los Milagros – North Orchard Block “B” Pit 112';
const CODES = ['last-charge-soon', 'last-charge-due'] as const;

const textOf = (code: (typeof CODES)[number], what: string, reader = {}, name = 'Pit 7'): string => {
  const figures = { what, atMs: at('14:10') };
  const one = transition({ code, verdict: 'hold', basis: 'forecast', figures });
  return renderText(request(notice([one]), { ...reader, site: { name, timeZone: ZONE } })).text;
};

describe('the last charge by an old forecast', () => {
  it.each(CODES)(
    '%s says its time and that the forecast is old, in both languages and at any site',
    (code) => {
      for (const name of ['Pit 7', LONG]) {
        const [en, inSpanish] = [
          textOf(code, 'lastChargeOld', {}, name),
          textOf(code, 'lastChargeOld', { reader: es }, name),
        ];
        expect(en).toMatch(/2:10 pm \(old forecast\)/);
        expect(inSpanish).toMatch(/2:10 pm \(pron[oó]stico viejo\)/);
        for (const text of [en, inSpanish]) {
          const segmented = new SegmentedMessage(text, 'auto');
          expect([segmented.encodingName, segmented.segmentsCount]).toEqual(['GSM-7', 1]);
        }
      }
    },
  );

  it('says something else where the forecast is fresh', () => {
    expect(textOf('last-charge-due', 'lastCharge')).toMatch(/\(forecast\)/);
    expect(textOf('last-charge-due', 'lastChargeTold')).toMatch(/\(plan as last told\)/);
  });
});

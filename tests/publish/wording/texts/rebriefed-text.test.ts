// What a crew is told when a drift is over because it has acknowledged the wind: never as if the wind had come back.

import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { es, notice, request, transition, ZONE } from './requests.ts';

const over = transition({
  code: 'wind-drifted',
  kind: 'over',
  verdict: 'go',
  basis: 'record',
  figures: { windFromDeg: 135, wasFromDeg: 225, what: 'rebriefed' },
});
const textOf = (reader: Parameters<typeof request>[1], name: string): string =>
  renderText(request(notice([over], 'go'), { ...reader, site: { name, timeZone: ZONE }, asked: false })).text;

describe('a drift that is over by being known', () => {
  it('is told as that, in both languages', () => {
    expect(textOf({}, 'Pit 7')).toMatch(/NOTE\. Over at 1:4\d pm: wind drift; you know wind southeast\./);
    expect(textOf({ reader: es }, 'Fosa 7')).toMatch(/viento corrido; ya conocen el del sureste\./);
  });

  it.each(['Pit 7', 'Rancho Grande del Álamo y Señor de los Milagros – North Orchard Block “B” Pit 112'])(
    'is one segment by an independent counter, at %s',
    (name) => {
      for (const reader of [{}, { reader: es }]) {
        const segmented = new SegmentedMessage(textOf(reader, name), 'auto');
        expect([segmented.encodingName, segmented.segmentsCount]).toEqual(['GSM-7', 1]);
      }
    },
  );
});

// Where several pits burn at one site a text says which it is about, in texts, mail and on pages alike.

import { describe, expect, it } from 'vitest';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { sayCondition } from '#publish/wording/texts/say-condition.ts';
import { CODES } from './codes.ts';
import { at, es, NOW, notice, request, type TransitionText, transition, ZONE } from './requests.ts';

const pit = { litAtMs: at('08:05'), nth: null };
const of = (text: TransitionText, named: typeof pit | { litAtMs: number; nth: number } | null = pit) =>
  transition({ ...text, figures: { ...text.figures, pit: named } });

const LAST = { ...CODES['last-charge-due'], code: 'last-charge-due' } as const;

describe('of several pits', () => {
  it('the one that is meant is named by when it was lit', () => {
    const { text, body } = renderText(request(notice([of(LAST)])));
    expect(text).toContain('NO MORE WOOD. Pit lit 8:05 am: last wood was due at 1:40 pm');
    expect(body).toContain('Pit lit 8:05 am: last wood was due');
    expect(renderText(request(notice([of(LAST)]), { reader: es })).text).toContain('Fosa 8:05 am: ');
  });

  it('two at once are each named in the mail', () => {
    const other = of(CODES['not-covered-by-dusk'], { litAtMs: at('09:30'), nth: 2 });
    const { body } = renderText(
      request(
        notice([
          of(LAST),
          transition({ ...other, code: 'not-covered-by-dusk', figures: other.condition.figures }),
        ]),
      ),
    );
    expect(body).toContain('Pit lit 8:05 am: ');
    expect(body).toContain('Pit lit 9:30 am (2nd): ');
  });

  it('what is over, doubtful or told again names it too', () => {
    for (const kind of ['over', 'unsure', 'still', 'worse', 'corrected'] as const) {
      expect(renderText(request(notice([of({ ...LAST, kind })]))).text, kind).toMatch(
        /[Pp]it (lit )?8:05 am/,
      );
    }
  });

  it('a light-up that tells its own time is not named twice', () => {
    const lit = of(
      { ...CODES['lit-against-plan'], code: 'lit-against-plan' },
      { litAtMs: at('13:20'), nth: null },
    );
    const { text } = renderText(request(notice([lit])));
    expect(text.match(/1:20 pm/g)).toHaveLength(1);
  });

  it('pages say it as texts do', () => {
    const reader = { language: 'en', units: 'us', timeZone: ZONE, day: null } as const;
    const stations = { stationName: (id: string) => id, stationOf: () => null };
    expect(sayCondition(of(LAST).condition, reader, stations, NOW)).toMatch(/^Pit lit 8:05 am: last wood/);
    expect(sayCondition(of(LAST, null).condition, reader, stations, NOW)).toMatch(/^Last wood/);
  });

  it('what was kept before pits were named reads as of the only one', () => {
    const { pit: _, ...old } = of(LAST).condition.figures;
    const kept = { ...of(LAST), condition: { ...of(LAST).condition, figures: old as never } };
    expect(renderText(request(notice([kept]))).text).toContain('NO MORE WOOD. Last wood was due');
  });

  it('a tap told to dispatch says which was covered', () => {
    const tap = { burn: 'b', tap: 'covered' as const, tappedAtMs: at('13:40'), by: 'Ana', pit };
    const { text } = renderText(request({ ...notice([]), kind: 'burn', tap }));
    expect(text).toContain('Pit lit 8:05 am: pit covered at 1:40 pm, told by Ana.');
  });
});

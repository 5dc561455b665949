// Texts as a crew reads them: order of what is said, merging, who is told what, units, the site's clock.

import { describe, expect, it } from 'vitest';
import { renderText } from '#publish/wording/texts/render-text.ts';
import { CODES } from './codes.ts';
import { at, es, GUST, notice, office, request, transition } from './requests.ts';

const text = (...of: Parameters<typeof request>) => {
  const { text: said, fault } = renderText(request(...of));
  expect(fault).toBeNull();
  return said;
};

const gust = transition();

const WIND_CODES = [
  'wind-shifted',
  'wind-drifted',
  'wind-unsteady',
  'smoke-turned-to-place',
  'observed-beyond-limit',
] as const;

describe('a notice', () => {
  it('says site, what to do, what was measured with its limit, where the smoke goes, how to answer, until when', () => {
    expect(text(notice([gust]))).toBe(
      'Pit 7: PUT IT OUT. Observed gust 31 mph 1:42 pm (pit), limit 25 mph. Smoke goes northwest. 1=got it 2=cannot,call me. Crew on site decides. Valid until 2:15 pm.',
    );
    expect(text(notice([gust]), { reader: es })).toBe(
      'Pit 7: APAGUEN YA. Medido: rafaga 31 mph, 1:42 pm (pit), limite 25 mph. Humo al noroeste. 1=ok 2=no puedo,llamen. Decide la cuadrilla en el sitio. Hasta 2:15 pm',
    );
  });

  it.each([
    [
      'wind-shifted',
      'NO WOOD. Observed wind southeast 14 mph 1:42 pm (pit), was southwest. Smoke goes northwest.',
    ],
    [
      'smoke-turned-to-place',
      'PUT IT OUT. Smoke goes to School: observed wind southeast 14 mph gust 31 mph at 1:42 pm (pit).',
    ],
    ['thunder-near', 'PUT IT OUT. Observed thunder near at 1:40 pm (airport).'],
    ['official-alert', 'PUT IT OUT. Official alert: Red Flag Warning from 1:00 pm (NWS Testville).'],
    ['local-order', 'PUT IT OUT. Order: Burn ban (County fire).'],
    ['plan-moved', 'NOTE. Forecast of 12:10 pm: last wood now 1:30 pm (was 2:30 pm).'],
    ['forecast-stale', 'NO WOOD. No new forecast since 3:10 am: decide by eye.'],
    ['station-silent', 'NO WOOD. No reading from pit since 1:10 pm: watch the wind.'],
    ['lit-against-plan', 'NO WOOD. Pit lit at 1:20 pm, plan said NO FIRE.'],
    ['last-charge-soon', 'LAST WOOD. Last wood at 2:10 pm (forecast).'],
    ['last-charge-due', 'NO MORE WOOD. Last wood was due at 1:40 pm (forecast).'],
    ['cover-due', 'COVER THE PIT. Pit to be covered by 4:00 pm.'],
    ['not-covered-by-dusk', 'COVER THE PIT. Not told covered; sunset was at 5:58 pm.'],
    ['look-again', 'LOOK AT THE PIT. Look for smoke or heat at the covered pit, day 3.'],
  ] as const)('%s: %s', (code, said) => {
    const one = transition({ ...CODES[code], code });
    // Not asked to answer: room for the whole sentence.
    expect(text(notice([one]), { asked: false })).toContain(`Pit 7: ${said}`);
  });

  it('tells a turn between two readings of a station that cannot see it sooner', () => {
    const one = transition({
      ...CODES['wind-shifted'],
      code: 'wind-shifted',
      figures: { ...CODES['wind-shifted'].figures, atMs: null, betweenMs: [at('12:53'), at('13:53')] },
    });
    const { body } = renderText(request(notice([one])));
    expect(body).toContain(
      'Wind turned between 12:53 pm and 1:53 pm from southwest: observed wind southeast',
    );
  });

  it('says who measured: a mast at the pit and an airport do not read alike, and one by the hour says so', () => {
    const stations = {
      stationName: (id: string) => (id === 'pit' ? 'Mast at the pit' : 'Test County Regional Airport'),
      stationOf: (id: string) =>
        id === 'pit'
          ? ({ kind: 'onSite', distanceM: 0, periodMin: 5 } as const)
          : ({ kind: 'near', distanceM: 19_300, periodMin: 60 } as const),
    };
    for (const code of WIND_CODES) {
      const by = (station: string) =>
        transition({ ...CODES[code], code, figures: { ...CODES[code].figures, station } });
      for (const reader of [request(notice([by('pit')])).reader, es, office]) {
        for (const escalated of [false, true]) {
          const said = (station: string) => text(notice([by(station)]), { ...stations, reader, escalated });
          expect(said('pit'), code).toMatch(/Mast/);
          expect(said('pit'), code).not.toMatch(/\d mi\b|hourly|cada hora/);
          expect(said('KXYZ'), code).toMatch(/12 mi\b/);
        }
        const far = (form: 'text' | 'body') =>
          renderText(request(notice([by('KXYZ')]), { ...stations, reader, asked: false }))[form];
        expect(far('text'), code).toMatch(/12 mi( away)?,? (hourly|cada hora)/);
        expect(far('body'), code).toMatch(
          /\(Test County Regional Airport, (12 mi away|a 12 mi), (hourly: sees no quick turn|cada hora: no ve giros cortos)\)/,
        );
      }
    }
  });

  it('that merges several says the worst, and how many more', () => {
    const worst = transition();
    const second = transition({ ...CODES['wind-shifted'], code: 'wind-shifted' });
    const third = transition({ ...CODES['forecast-stale'], code: 'forecast-stale' });
    const said = renderText(request(notice([worst, second, third])));
    expect(said.text).toContain('PUT IT OUT. Observed gust 31');
    expect(said.text).toContain('+2 more.');
    for (const line of ['Observed gust 31 mph', 'Wind turned at 1:35 pm', 'No new forecast since 3:10 am'])
      expect(said.body).toContain(line);
  });

  it('tells a person only the parts that are theirs, with the worst that stands', () => {
    const message = notice([
      transition(),
      transition({ ...CODES['lit-against-plan'], code: 'lit-against-plan' }),
    ]);
    expect(text(message, { parts: [1], reader: office })).toBe(
      'Pit 7: For crew: PUT IT OUT. Pit lit at 1:20 pm, plan said NO FIRE. Answer 1=got it, 2=cannot, call me. Crew on site decides. Valid until 2:15 pm.',
    );
  });

  it('demands no less than what stands at the moment of sending, and what stood when it was made where nobody knows', () => {
    const stale = transition({ ...CODES['forecast-stale'], code: 'forecast-stale' });
    const told = (verdict: 'stop' | 'hold', standing: 'stop' | 'hold' | 'go' | null) =>
      text(notice([stale], verdict), { standing });
    for (const said of [told('hold', 'stop'), told('stop', null), told('stop', 'stop')])
      expect(said).toContain('Pit 7: PUT IT OUT. No new forecast');
    for (const said of [told('stop', 'hold'), told('hold', null), told('hold', 'go')])
      expect(said).toContain('Pit 7: NO WOOD. No new forecast');
    const last = transition({ ...CODES['last-charge-soon'], code: 'last-charge-soon' });
    expect(text(notice([last], 'go'), { standing: 'go' })).toContain('LAST WOOD');
    expect(text(notice([last], 'go'), { standing: 'hold' })).toContain('NO WOOD');
  });

  it('says another thing to do where no fire burns', () => {
    expect(text(notice([gust]), { burning: false })).toContain('Pit 7: NO FIRE. ');
    expect(text(notice([transition({ verdict: 'hold' })]), { burning: false })).toContain(
      'Pit 7: DO NOT LIGHT. ',
    );
    expect(text(notice([gust]), { burning: false, reader: es })).toContain('Pit 7: SIN FUEGO. ');
  });

  it('speaks to the office of the crew, and says so where the crew has not answered', () => {
    expect(text(notice([gust]), { reader: office })).toContain('Pit 7: Crew: PUT IT OUT. ');
    expect(text(notice([gust]), { reader: office, escalated: true })).toContain(
      'Pit 7: NO ANSWER. For crew: PUT IT OUT. Observed gust 31 mph 1:42 pm (pit), limit 25 mph. Smoke northwest.',
    );
    expect(text(notice([gust]), { reader: { ...office, language: 'es' }, escalated: true })).toMatch(
      /NO CONTESTAN?\./,
    );
    expect(text(notice([gust]), { repeat: 1 })).toContain('Pit 7: Again: PUT IT OUT. ');
  });

  it('asks for an answer only of those who are to answer', () => {
    expect(text(notice([gust]), { asked: false })).not.toMatch(/1=|2=/);
  });

  it('gives figures in the units of who reads them', () => {
    expect(text(notice([gust]), { reader: { language: 'en', units: 'si', role: 'crew' } })).toContain(
      'Observed gust 13.9 m/s',
    );
    const dry = transition({
      figures: {
        element: 'relativeHumidity',
        value: 18,
        bound: 25,
        side: 'atLeast',
        source: 'ours',
        atMs: at('13:42'),
      },
    });
    expect(text(notice([dry]), { asked: false })).toContain(
      'Observed humidity 18 % at 1:42 pm, limit at least 25 % (ours).',
    );
    const hot = transition({
      figures: {
        element: 'temperature',
        value: 40,
        bound: 35,
        side: 'atMost',
        source: null,
        atMs: at('13:42'),
      },
    });
    expect(text(notice([hot]), { asked: false })).toContain(
      'Observed temperature 104 F at 1:42 pm, limit 95 F.',
    );
  });

  it('never says that a value is its bound when it is beyond', () => {
    const near = transition({ figures: { ...GUST, value: (GUST.bound ?? 0) * 1.0004 } });
    expect(text(notice([near]))).toContain('gust 25.01');
  });

  it('goes by the clock of the site, on both nights on which that changes', () => {
    // America/Denver: at 2026-03-08T09:00Z 2:00 am becomes 3:00 am; on 2026-11-01 1:30 am comes twice.
    const told = (utc: string) => {
      const ms = Date.parse(utc);
      const one = { ...transition({ figures: { ...GUST, atMs: ms } }), atMs: ms };
      return text({ ...notice([one]), atMs: ms, validUntilMs: ms + 3_600_000 }, { asked: false });
    };
    expect(told('2026-03-08T08:59:00Z')).toMatch(/at 1:59 am.*Valid until 3:59 am\.$/);
    expect(told('2026-11-01T07:30:00Z')).toMatch(/at 1:30 am.*Valid until 1:30 am\.$/);
  });

  it('calls a station by its name', () => {
    const one = transition({ ...CODES['station-silent'], code: 'station-silent' });
    expect(text(notice([one]), { stationName: () => 'North mast', asked: false })).toContain(
      'from North mast since',
    );
  });
});

describe('what has changed', () => {
  const told = (kind: Parameters<typeof transition>[0]) =>
    text(notice([transition(kind)], 'go'), { asked: false });

  it('is worse, eased, or comes and goes, with its figures', () => {
    expect(told({ kind: 'worse' })).toContain(
      'Pit 7: PUT IT OUT. Worse: observed gust 31 mph at 1:42 pm (pit), limit 25 mph (permit).',
    );
    expect(told({ kind: 'unsteady', verdict: 'hold' })).toContain('NO WOOD. Unsteady: observed gust 31 mph');
    expect(
      text(notice([transition({ kind: 'eased', verdict: 'hold' })], 'hold'), { asked: false }),
    ).toContain('NO WOOD. Eased: observed gust 31 mph');
  });

  it('cannot be told now: what was last known, and what it demands still', () => {
    expect(told({ kind: 'unsure', verdict: 'hold' })).toContain(
      'Pit 7: NO WOOD. Cannot tell now; last: observed gust 31 mph at 1:42 pm',
    );
  });

  it('is over: never leave to light, and never by itself', () => {
    expect(told({ kind: 'over', verdict: 'go' })).toBe(
      'Pit 7: NOTE. Over at 1:42 pm: gust beyond limit 25 mph. Wood only by plan and eye. Crew on site decides. Valid until 2:15 pm.',
    );
    expect(text(notice([transition({ kind: 'over', verdict: 'go' })], 'hold'), { asked: false })).toContain(
      'Pit 7: NO WOOD. Over at 1:42 pm: gust beyond limit 25 mph.',
    );
    expect(told({ kind: 'corrected', verdict: 'go' })).toContain(
      'Taken back at 1:42 pm: gust beyond limit 25 mph. Nobody says it is over.',
    );
  });

  it('no text says GO but that of a day', () => {
    for (const [code, of] of Object.entries(CODES))
      for (const kind of ['raised', 'eased', 'over', 'corrected'] as const) {
        if (of.figures?.what === 'go') continue;
        const one = transition({ ...of, code: code as keyof typeof CODES, kind, verdict: 'go' });
        expect(text(notice([one], 'go'), { asked: false })).not.toMatch(/\bGO\b|ADELANTE/);
      }
  });
});

// Every text that can be: in one segment by sms-segments-calculator, an independent counter; without the words by which
// people leave (47 CFR 64.1200(a)(10), and the keyword lists of providers, read in November 2026); with what to do.

import fc from 'fast-check';
import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import { isRelief, type Transition, type TransitionKind } from '#core/notices/notice.ts';
import { ELEMENT_NAMES, ELEMENTS } from '#core/series/elements.ts';
import type { ConditionCode } from '#core/watch/condition.ts';
import { renderText } from '#publish/wording/texts/render-text.ts';
import type { TextRequest } from '#publish/wording/texts/text-request.ts';
import { CODES } from './codes.ts';
import { at, NOW, notice, request, type TransitionText, transition, ZONE } from './requests.ts';

/** Written out here, not taken from the program. */
const RESERVED =
  /(?<![A-Za-z])(stop|stopall|end|quit|cancel|unsubscribe|revoke|opt[- ]?out|optout|remove|arret|td|alto|baja|cancelar|parar|detener|fin|start|unstop|yes|inicio|alta|si|help|info|ayuda|auxilio)(?![A-Za-z])/i;

function check(text: string, of: string): void {
  const segmented = new SegmentedMessage(text, 'auto');
  expect(segmented.encodingName, `${of}: ${text}`).toBe('GSM-7');
  expect(segmented.segmentsCount, `${of}: ${text}`).toBe(1);
  expect(RESERVED.exec(text)?.[0], `${of}: ${text}`).toBeUndefined();
  expect(text, of).not.toMatch(/undefined|null|NaN|Infinity|\[object| {2}|\n/);
}

const KINDS: readonly TransitionKind[] = [
  'raised',
  'worse',
  'eased',
  'unsteady',
  'still',
  'unsure',
  'over',
  'corrected',
];
const CODE_NAMES = Object.keys(CODES) as ConditionCode[];

const LONG = 'Rancho Grande del Álamo y Señor de los Milagros – North Orchard Block “B” Pit 112';
const SITES = ['Pit 7', LONG, 'Stop End Alto', '€€€€€€€€€€€€€€€€€€€€ 7', '木材'] as const;

const READERS = (['en', 'es'] as const).flatMap((language) =>
  (['crew', 'office'] as const).map((role) => ({ language, role, units: 'us' as const })),
);

const ORDERS = {
  en: /PUT IT OUT|NO WOOD|NOTE|NO FIRE|DO NOT LIGHT|LAST WOOD|NO MORE WOOD|COVER THE PIT|LOOK AT THE PIT/,
  es: /APAGUEN YA|NO ECHEN LEÑA|AVISO|SIN FUEGO|NO ENCIENDAN|ULTIMA LEÑA|YA NO ECHEN LEÑA|TAPEN LA FOSA|REVISEN LA FOSA/,
};

/** Told of one pit, of which a site may have several. */
const OF_PIT: ReadonlySet<string> = new Set([
  'lit-against-plan',
  'lit-without-go',
  'last-charge-soon',
  'last-charge-due',
  'cover-due',
  'not-covered-by-dusk',
]);

/** The worst that can stand in the figures: long names, the largest values, another day. */
const extreme = (text: TransitionText): TransitionText => {
  const name = (given: string | null | undefined) => (given == null ? null : `${given} ${LONG}`);
  const { figures = {} } = text;
  const isCode = /^(lightUp|lastCharge|coveredBy|hold|stop|ours|frozen|sunset)/.test(figures.what ?? '');
  const later = at('23:59', '2026-03-04');
  return {
    ...text,
    asOfMs: at('10:58', '2026-02-28'),
    figures: {
      ...figures,
      windFromDeg: figures.windFromDeg == null ? null : 45,
      wasFromDeg: figures.wasFromDeg == null ? null : 315,
      windSpeedMps: 111.111,
      gustMps: 139.999,
      place: name(figures.place),
      source: name(figures.source ?? 'x'),
      station: name(figures.station),
      what: isCode ? (figures.what ?? null) : name(figures.what),
      atMs: figures.atMs == null ? null : later,
      wasMs: figures.wasMs == null ? null : later,
      pit: OF_PIT.has(text.code ?? '') ? { litAtMs: at('10:58', '2026-02-28'), nth: 2 } : null,
    },
  };
};

const FAR = { kind: 'near', distanceM: 29_900, periodMin: 60 } as const;

interface Case {
  readonly of: string;
  readonly request: TextRequest;
  readonly until: RegExp;
}

/** Each kind, with figures as usual and at their worst, to each reader, from each site, and sent in every way. */
const casesOf = (code: ConditionCode): Case[] =>
  KINDS.flatMap((kind) =>
    [CODES[code], extreme({ ...CODES[code], code })].flatMap((text) =>
      READERS.flatMap((reader) =>
        SITES.map((_, site) => caseOf(transition({ ...text, code, kind }), reader, site)),
      ),
    ),
  );

function caseOf(one: Transition, reader: TextRequest['reader'], site: number): Case {
  const name = SITES[site] ?? '';
  const asked = !isRelief(one);
  const isTomorrow = site === 2;
  const message = {
    ...notice(site === 1 ? [one, one, one] : [one]),
    validUntilMs: isTomorrow ? at('22:58', '2026-03-03') : at('14:15'),
  };
  return {
    of: `${one.condition.code} ${one.kind} ${reader.language} ${reader.role} ${name}`,
    until: isTomorrow ? /(Tue|mar) 10:58 pm\.?$/ : /2:15 pm\.?$/,
    request: request(message, {
      reader,
      site: { name, timeZone: ZONE },
      burning: site % 2 === 0,
      asked,
      repeat: asked ? site : 0,
      escalated: asked && site >= 2,
      // Names of stations are as long as any, and the last is far off and tells by the hour.
      stationOf: () => (site === 3 ? null : FAR),
    }),
  };
}

describe('every notice', () => {
  it.each(CODE_NAMES)(
    '%s, of each kind, to each reader, from each site, is one segment that says what to do',
    (code) => {
      const cases = casesOf(code);
      expect(cases.length).toBe(KINDS.length * 2 * READERS.length * SITES.length);
      for (const { of, until, request: wanted } of cases) {
        const { text, fault } = renderText(wanted);
        expect(fault, of).toBeNull();
        check(text, of);
        expect(text, of).toMatch(ORDERS[wanted.reader.language]);
        expect(text, of).toMatch(until);
        expect(text, of).toMatch(/decides|[Dd]ecide/);
        expect(/1=(got it|enterado|ok)[ ,]/.test(text), of).toBe(wanted.asked);
        const isNamed = wanted.message.transitions[0]?.condition.figures.pit !== null;
        expect(/(pit|fosa) (lit |encendida )?(Sat|s[aá]b),? 10:58 am[ :,]/i.test(text), of).toBe(isNamed);
        expect(text.includes('+2 '), of).toBe(wanted.message.transitions.length === 3);
      }
    },
  );

  it('on any element, with any value that can be, in either system of units, is one segment with value and limit', () => {
    const value = (element: (typeof ELEMENT_NAMES)[number]) =>
      fc.double({ min: ELEMENTS[element].least, max: ELEMENTS[element].most, noNaN: true });
    const figures = fc.constantFrom(...ELEMENT_NAMES).chain((element) =>
      fc.record({
        element: fc.constant(element),
        value: value(element),
        bound: value(element),
        side: fc.constantFrom('atLeast' as const, 'atMost' as const),
        windFromDeg: fc.option(fc.double({ min: 0, max: 360, noNaN: true })),
      }),
    );
    const name = fc.string({ unit: 'grapheme', maxLength: 60 });
    fc.assert(
      fc.property(
        figures,
        name,
        fc.constantFrom(...READERS),
        fc.constantFrom('us', 'si'),
        (f, site, reader, units) => {
          const one = transition({ figures: { ...f, source: site, boundUnit: null, atMs: NOW } });
          const { text, fault } = renderText(
            request(notice([one]), {
              site: { name: site, timeZone: ZONE },
              reader: { ...reader, units } as TextRequest['reader'],
            }),
          );
          expect(fault).toBeNull();
          check(text, JSON.stringify([f, site]));
          expect(text).toMatch(/limit/);
          expect(text).toMatch(/1:42 pm/);
        },
      ),
      { seed: 4711, numRuns: 1500 },
    );
  });

  it('without a single figure still says what to do, and invents none', () => {
    for (const code of CODE_NAMES) {
      for (const reader of READERS) {
        const one = transition({ code, verdict: 'hold', figures: {}, asOfMs: null });
        const { text, fault } = renderText(request(notice([one]), { reader }));
        expect(fault, code).toBeNull();
        check(text, code);
        expect(text, code).toMatch(ORDERS[reader.language]);
        expect(text.replace(/1=.*$/, '').replace('Pit 7', ''), code).not.toMatch(/\d/);
      }
    }
  });

  it('with figures that are no numbers says none of them', () => {
    const nothing = {
      value: Number.NaN,
      bound: Number.POSITIVE_INFINITY,
      windFromDeg: Number.NaN,
      atMs: Number.NaN,
    };
    const one = transition({ figures: { element: 'windGust', side: 'atMost', ...nothing } });
    const { text, fault } = renderText(request(notice([one])));
    expect(fault).toBeNull();
    expect(text).toBe(
      'Pit 7: PUT IT OUT. Observed gust beyond its limit at 1:42 pm. Answer 1=got it, 2=cannot, call me. Crew on site decides. Valid until 2:15 pm.',
    );
  });
});

describe('observed and forecast', () => {
  const SAID = {
    en: { observed: /observed/i, forecast: /forecast/i },
    es: { observed: /medido/i, forecast: /pronostico/i },
  };
  const OF_BOTH: readonly ConditionCode[] = [
    'wind-shifted',
    'wind-drifted',
    'smoke-turned-to-place',
    'wind-unsteady',
    'observed-beyond-limit',
    'thunder-near',
    'plan-worse',
    'plan-moved',
    'plan-verdict',
    'wind-shift-ahead',
    'last-charge-soon',
    'last-charge-due',
    'station-doubted',
  ];

  it.each(OF_BOTH)('%s: the one is never told as the other', (code) => {
    for (const language of ['en', 'es'] as const) {
      for (const basis of ['observed', 'forecast'] as const) {
        for (const kind of ['raised', 'worse', 'eased', 'unsteady'] as const) {
          const other = basis === 'observed' ? 'forecast' : 'observed';
          for (const text of [CODES[code], extreme(CODES[code])]) {
            const one = transition({ ...text, code, kind, basis });
            const reader = { language, role: 'crew', units: 'us' } as const;
            const said = renderText(request(notice([one]), { reader })).text;
            expect(said, `${code} ${basis}`).toMatch(SAID[language][basis]);
            expect(said, `${code} ${basis}`).not.toMatch(SAID[language][other]);
          }
        }
      }
    }
  });
});

describe('Spanish', () => {
  it('never says a bare O or NO for a direction, whichever it is', () => {
    for (let deg = 0; deg < 360; deg += 5) {
      const one = transition({
        code: 'wind-shifted',
        verdict: 'hold',
        figures: { windFromDeg: deg, wasFromDeg: 360 - deg, windSpeedMps: 5 },
      });
      const { text, body } = renderText(
        request(notice([one]), { reader: { language: 'es', units: 'us', role: 'crew' } }),
      );
      for (const said of [text, body]) {
        expect(said).not.toMatch(/\bO\b/);
        expect(said.match(/\bNO\b \S+/g) ?? []).toEqual(['NO ECHEN']);
      }
    }
  });
});

// The evening text and the dawn text: the three times, the nearest figure, and what moved over night.

import { SegmentedMessage } from 'sms-segments-calculator';
import { describe, expect, it } from 'vitest';
import { dayTextMessage, sinceEvening } from '#core/notices/day-texts.ts';
import type { DayTold } from '#core/notices/message.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import type { DayPlan } from '#core/plan/plan.ts';
import { type DaySummary, summariseDays } from '#core/plan/plan-summary.ts';
import { finding } from '#core/rules/finding.ts';
import { dayFigures } from '#publish/wording/texts/day-figures.ts';
import { renderText } from '#publish/wording/texts/render-text.ts';
import type { DayFigures } from '#publish/wording/texts/text-request.ts';
import { byClock } from '../../../builders/forecast.ts';
import { inputOf } from '../../../builders/plan.ts';
import { at, dayMessage, es, GUST, office, request, summary } from './requests.ts';

const FIGURES: DayFigures = {
  limit: {
    limitIndex: 0,
    element: 'windGust',
    value: (GUST.bound ?? 0) * 0.72,
    bound: GUST.bound ?? 0,
    boundUnit: 'mph',
    side: 'atMost',
    room: 1,
    roomFraction: 0.2,
    atMs: at('14:00', '2026-03-03'),
    derived: false,
    source: 'permit',
    category: null,
  },
  finding: null,
  windFromDeg: 180,
};

const text = (...of: Parameters<typeof request>) => {
  const { text: said, fault } = renderText(request(...of));
  expect(fault).toBeNull();
  expect(new SegmentedMessage(said).segmentsCount).toBe(1);
  return said;
};

const changed = (to: Partial<NonNullable<DaySummary['times']>>) => {
  const was = summary();
  const now = { ...was, times: was.times && { ...was.times, ...to } };
  return {
    now,
    changes: sinceEvening({ date: was.date, day: was, changes: null }, now, at('04:45', '2026-03-03')),
  };
};

describe('the evening text', () => {
  it('gives the three times and the nearest figure', () => {
    expect(text(dayMessage('evening', summary()), { day: FIGURES })).toBe(
      'Pit 7 Tue: GO. Light 9:00 am, last wood 2:30 pm, covered by 4:00 pm. Forecast gust 18 mph at 2:00 pm, limit 25 mph. Smoke goes north. Crew decides. Till 8:05 pm',
    );
    expect(text(dayMessage('evening', summary()), { day: FIGURES, reader: es })).toMatch(
      /^Pit 7 mar: ADELANTE\. Encender 9:00 am, ultima leña 2:30 pm, tapada 4:00 pm\./,
    );
  });

  it('says why there is no burn, by a limit or by what bars the day', () => {
    const none = summary({ verdict: 'stop', times: null, windows: [] });
    const limit = FIGURES.limit && { ...FIGURES.limit, value: (GUST.bound ?? 0) * 1.24 };
    expect(text(dayMessage('evening', none), { day: { ...FIGURES, limit } })).toContain(
      'Pit 7 Tue: NO FIRE. Forecast gust 31 mph at 2:00 pm, limit 25 mph.',
    );
    const ban = finding(
      'local-order',
      'stop',
      { fromMs: 0, toMs: 1 },
      { name: 'Burn ban', issuer: 'County', openEnded: false },
    );
    expect(text(dayMessage('evening', none), { day: { limit, finding: ban, windFromDeg: null } })).toContain(
      'Pit 7 Tue: NO FIRE. Order: Burn ban.',
    );
  });

  it('says that nobody can say, and never a go without times', () => {
    const unsaid = summary({ verdict: 'hold', cannotSay: true, times: null, windows: [] });
    expect(text(dayMessage('evening', unsaid))).toContain('Pit 7 Tue: CANNOT SAY, DO NOT LIGHT.');
    expect(text(dayMessage('evening', unsaid), { reader: es })).toContain('NO SE SABE, NO ENCIENDAN.');
    expect(text(dayMessage('evening', summary({ verdict: 'go', times: null })))).toContain(
      'Pit 7 Tue: DO NOT LIGHT.',
    );
  });

  it('tells pauses', () => {
    const windows: DaySummary['windows'] = [
      ['go', at('09:00', '2026-03-03'), at('11:00', '2026-03-03')],
      ['hold', at('11:00', '2026-03-03'), at('12:00', '2026-03-03')],
      ['go', at('12:00', '2026-03-03'), at('14:30', '2026-03-03')],
    ];
    expect(text(dayMessage('evening', summary({ windows })), { day: FIGURES })).toContain(
      'covered by 4:00 pm. No wood 11:00 am to 12:00 pm. ',
    );
  });
});

describe('the dawn text', () => {
  it('is the same as last evening where nothing moved', () => {
    const { now, changes } = changed({});
    expect(changes).toEqual([]);
    expect(text(dayMessage('dawn', now, changes), { day: FIGURES })).toContain(
      'Pit 7 today: Same as last evening. GO. Light 9:00 am, last wood 2:30 pm, covered by 4:00 pm.',
    );
  });

  it('says what moved, and what it was', () => {
    const { now, changes } = changed({
      lastCharge: at('13:30', '2026-03-03'),
      coveredBy: at('15:00', '2026-03-03'),
    });
    expect(text(dayMessage('dawn', now, changes), { day: FIGURES })).toContain(
      'Pit 7 today: CHANGED. GO. Light 9:00 am, last wood 1:30 pm (was 2:30 pm), covered by 3:00 pm (was 4:00 pm).',
    );
  });

  it('says another verdict first', () => {
    const was = summary();
    const now = summary({
      verdict: 'stop',
      times: null,
      windows: [['stop', at('00:00', '2026-03-03'), at('23:00', '2026-03-03')]],
    });
    const changes = sinceEvening({ date: was.date, day: was, changes: null }, now, at('04:45', '2026-03-03'));
    expect(text(dayMessage('dawn', now, changes))).toContain('Pit 7 today: CHANGED. Was GO. NO FIRE.');
    expect(text(dayMessage('dawn', now, changes), { reader: es })).toContain(
      'Pit 7 hoy: CAMBIO. Era ADELANTE. SIN FUEGO.',
    );
  });

  it('without an evening to compare with claims no sameness', () => {
    expect(text(dayMessage('dawn', summary(), null))).not.toMatch(/Same|CHANGED/);
  });
});

describe('of a plan as it is made', () => {
  const told = (weather: Parameters<typeof inputOf>[0]) => {
    const plan = makePlan(inputOf(weather));
    const day = plan.days[0] as DayPlan;
    const told: DayTold = { date: day.day.date, day: summariseDays(plan)[0] as DaySummary, changes: null };
    const due = {
      site: 'own/pit',
      date: '2026-03-01',
      kind: 'evening',
      about: day.day.date,
      dueAtMs: 0,
    } as const;
    const nowMs = plan.nowMs;
    const message = dayTextMessage({ ...due, validUntilMs: nowMs + 3_600_000 }, told.day, null, {
      nowMs,
      hash: () => 'x',
    });
    const site = { name: 'Pit 7', timeZone: plan.site.timeZone };
    return text(message, { site, day: dayFigures(plan, day) });
  };

  it('a fair day is a go with its times and its tightest limit', () => {
    expect(told({})).toMatch(
      /^Pit 7 Mon: GO\. Light \d+:\d\d [ap]m.*, last wood \d+:\d\d [ap]m, covered by \d+:\d\d [ap]m\. Forecast humidity 45 % at 7:00 am, limit at least 30 %\. /,
    );
  });

  it('a windy day is none, with the wind and its limit', () => {
    const said = told({ weather: { windSpeed: byClock('windSpeed', { '00:00': '22 mph' }) } });
    expect(said).toMatch(/^Pit 7 Mon: NO FIRE\. Forecast wind 22 mph at \d+:\d\d am, limit 1[25] mph\./);
  });
});

it('every day text is one segment, in both languages, for the longest names', () => {
  const name = 'Rancho Grande del Álamo y Señor de los Milagros – North Orchard Block “B” Pit 112';
  const far = {
    lightUp: at('10:59', '2026-03-03'),
    lightUpBy: at('11:59', '2026-03-03'),
    lastCharge: at('23:59', '2026-03-03'),
    burnedDown: at('00:59', '2026-03-04'),
    coveredBy: at('01:59', '2026-03-04'),
  };
  const { changes } = changed(far);
  const windows: DaySummary['windows'] = [['hold', far.lightUpBy, far.lastCharge]];
  for (const day of [
    summary({ times: far, windows }),
    summary({ verdict: 'hold', cannotSay: true, times: null }),
  ])
    for (const reader of [es, office, { ...es, role: 'dispatch' as const }])
      for (const kind of ['evening', 'dawn'] as const)
        for (const given of [null, [], changes])
          for (const asked of [true, false]) {
            const message = dayMessage(kind, day, given);
            text(message, { reader, asked, day: FIGURES, site: { name, timeZone: 'America/Denver' } });
          }
});

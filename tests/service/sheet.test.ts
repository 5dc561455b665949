// Every figure on the day sheet is one of the API: read back from the PDF and from the page by readers that know nothing of
// the program.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { HoursAnswer, PlanAnswer, SiteAnswer } from '#publish/wire.ts';
import { wordsOf } from '../publish/page/read-page.ts';
import { readPdf } from '../publish/sheet/read-pdf.ts';
import { type Running, startRunning } from './running.ts';

let running: Running;
beforeAll(async () => {
  running = await startRunning('2026-03-03T14:10:00Z');
});
afterAll(() => running.close());

const get = (url: string) => running.service.app.inject({ url });
const SITES = ['north-block', 'creek-block', 'ridge-block'];

const clock = (instant: string): string => {
  const [, hour = '', minute = ''] = /T(\d\d):(\d\d)/.exec(instant) ?? [];
  return `${Number(hour) % 12 || 12}:${minute} ${Number(hour) < 12 ? 'am' : 'pm'}`;
};

interface Told {
  readonly plan: PlanAnswer;
  readonly hours: HoursAnswer;
  readonly site: SiteAnswer;
}

async function told(id: string, query: string): Promise<Told> {
  return {
    plan: (await get(`/v1/sites/${id}/plan?${query}`)).json(),
    hours: (await get(`/v1/sites/${id}/hours?${query}`)).json(),
    site: (await get(`/v1/sites/${id}`)).json(),
  };
}

const numbersIn = (text: string): number[] =>
  [...text.matchAll(/-?\d[\d,]*(?:\.\d+)?/g)].map(([n]) => Number(n.replaceAll(',', '')));

/** To the decimals that are shown. */
const isSame = (shown: number, value: number): boolean => {
  const decimals = String(shown).split('.')[1]?.length ?? 0;
  return Math.abs(shown - value) <= 0.5000001 * 10 ** -decimals;
};

describe.each([
  ['us', 'en'],
  ['si', 'es'],
] as const)('the sheet in %s and %s', (units, lang) => {
  it.each(SITES)('of %s says what the API says', async (id) => {
    for (const day of ['today', 'tomorrow']) {
      const query = `day=${day}&units=${units}&lang=${lang}`;
      const response = await get(`/sites/${id}/sheet.pdf?${query}`);
      expect(response.headers['content-type']).toBe('application/pdf');
      const pdf = await readPdf(response.rawPayload);
      const page = wordsOf((await get(`/sites/${id}/sheet?${query}`)).body);
      const { plan, hours, site } = await told(id, query);
      expect(pdf.pages).toBe(1);
      expect(pdf.size[0]).toBeCloseTo(units === 'us' ? 612 : 595.28, 1);
      for (const text of [pdf.text, page]) agrees(text, { plan, hours, site });
      rowsAgree(pdf.text, hours);
    }
  });
});

/** Times, position, moves and whose limits they are. */
function agrees(text: string, { plan, hours, site }: Told): void {
  const quality = site.definition['quality'] as { holdAfterMin: number };
  const endsMs = Date.parse(plan.madeAt ?? '') + quality.holdAfterMin * 60_000;
  for (const time of [plan.lightUp, plan.lastCharge, plan.coveredBy, plan.madeAt, plan.workedOutAt])
    if (time !== null) expect(text).toContain(clock(time));
  // Pacific Standard Time is eight hours behind UTC.
  expect(text).toContain(clock(new Date(endsMs - 8 * 3_600_000).toISOString()));
  expect(text).toContain(site.at.join(', '));
  for (const { source } of hours.limits) expect(text).toContain(source);
  for (const move of plan.wouldChange.moves)
    expect(text.replaceAll(/\s/g, '')).toContain(move.text.replaceAll(/\s/g, ''));
  if (plan.tightest !== null && plan.lightUp !== null) expect(text).toContain(plan.tightest.text);
}

/** The figures of each limit stand in a row, in the order of the hours that are drawn. */
function rowsAgree(text: string, { hours, limits }: HoursAnswer): void {
  for (const [l, limit] of limits.entries()) {
    const values = hours.map(({ scores }) => scores[l]?.value ?? null).filter((value) => value !== null);
    const rows = text
      .split(`, ${limit.source} `)
      .slice(1)
      .map((rest) => numbersIn(rest.slice(0, 160)));
    const found = rows.some((shown) =>
      values.some((_, from) => {
        const part = values.slice(from, from + 8);
        return part.length === 8 && part.every((value, i) => isSame(shown[i] ?? Number.NaN, value));
      }),
    );
    expect([limit.element, limit.source, found]).toEqual([limit.element, limit.source, true]);
  }
}

it('and a figure that is another is found', async () => {
  const { rawPayload } = await get('/sites/north-block/sheet.pdf?day=tomorrow');
  const { text } = await readPdf(rawPayload);
  const { hours } = await told('north-block', 'day=tomorrow');
  rowsAgree(text, hours);
  const noon = hours.hours.findIndex(({ from }) => from.includes('T12:'));
  const heights = hours.hours.map(({ values }) => Math.round(values['mixingHeight']?.value ?? 0));
  const shown = (heights[noon] ?? 0).toLocaleString('en-US');
  expect(text).toContain(` ${shown} `);
  expect(() => rowsAgree(text.replaceAll(` ${shown} `, ' 1 '), hours)).toThrow(/mixingHeight/);
});

it('is kept from whoever may not see the site, and asks for a paper that there is', async () => {
  expect((await get('/sites/nowhere/sheet.pdf')).statusCode).toBe(404);
  expect((await get('/sites/nowhere/sheet')).statusCode).toBe(404);
  expect((await get('/sites/north-block/sheet.pdf?paper=a3')).statusCode).toBe(400);
  expect((await get('/sites/north-block')).body).toContain('href="/sites/north-block/sheet?day=2026-03-03"');
});

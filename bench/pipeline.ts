// (a) Bytes of a gridpoint document → plan for 7 days with 8 limits, against bare JSON.parse of the same bytes.
// (c) 5,000 sites planned from memory on one core.

import { existsSync, readFileSync } from 'node:fs';
import { buildSite } from '#config/build-site.ts';
import { parseConfig } from '#config/load.ts';
import { makePlan, planCalendar } from '#core/plan/make-plan.ts';
import type { Forecast } from '#core/series/forecast.ts';
import { localDateAt } from '#core/units/local-time.ts';
import { DEMO_CELLS } from '#demo/cells.ts';
import { gridpointDocument } from '#demo/documents.ts';
import { documentIdOf, readGridpoint } from '#sources/nws/gridpoint.ts';
import { line, sideBySide } from './measure.ts';

/** Eight limits, as written. */
export const EIGHT_LIMITS = [
  {
    element: 'windSpeed',
    atLeast: { hold: '3 mph' },
    atMost: { hold: '12 mph', stop: '15 mph' },
    source: 'our rule',
  },
  { element: 'windGust', atMost: { hold: '18 mph', stop: '25 mph' }, source: 'our rule' },
  { element: 'relativeHumidity', atLeast: { hold: '30 %', stop: '20 %' }, source: 'our rule' },
  { element: 'mixingHeight', atLeast: { hold: '1700 ft', stop: '1000 ft' }, source: 'permit' },
  { element: 'probabilityOfThunder', atMost: { hold: '15 %', stop: '30 %' }, source: 'our rule' },
  { element: 'probabilityOfPrecipitation', atMost: { hold: '50 %' }, source: 'our rule' },
  { element: 'ventilationRate', atLeast: { hold: '28500 kt-ft' }, source: 'permit' },
  { element: 'dispersionIndex', when: 'night', atLeast: { hold: 8 }, source: 'permit' },
];

const CONFIG = JSON.stringify({
  contact: 'bench@example.org',
  limitSets: { eight: EIGHT_LIMITS },
  sites: [
    {
      id: 'bench',
      name: 'Bench',
      at: [33.5, -86.8],
      timeZone: 'America/Chicago',
      limits: 'eight',
      shift: { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '07:00', to: '17:00' },
      protected: [{ name: 'county road', bearing: [80, 140], within: '0.5 mi' }],
    },
  ],
});

const DATA = new URL('../../shared/data/nws/', import.meta.url);

interface Document {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Recorded documents where they are at hand, else the demo's. */
export function documents(): Document[] {
  const recorded = [
    'gridpoint-raw_BMX-59-84_20240220.json',
    'gridpoint-raw_RAH-67-53_20190123.json',
    'gridpoint-raw_TAE-58-65_20220204.json',
  ];
  const found = recorded.filter((name) => existsSync(new URL(name, DATA)));
  if (found.length > 0) return found.map((name) => ({ name, bytes: readFileSync(new URL(name, DATA)) }));
  const cell = DEMO_CELLS[0];
  if (!cell) throw new Error('the demo has no cell');
  const text = JSON.stringify(
    gridpointDocument(cell, Date.parse('2026-03-02T18:20:00Z'), 'http://127.0.0.1'),
  );
  return [{ name: 'demo document', bytes: Buffer.from(text) }];
}

export function planInput(forecast: Forecast) {
  const config = parseConfig(CONFIG, 'bench');
  const fields = config.sites[0];
  const built = fields && buildSite(config, fields, 'America/Chicago');
  if (!built) throw new Error('the bench has no site');
  const nowMs = (forecast.issuedAtMs ?? 0) + 3_600_000;
  const alerts = { fetchedAtMs: nowMs, complete: true, alerts: [] };
  return { ...built, alerts, nowMs, firstDate: localDateAt(nowMs, 'America/Chicago'), dayCount: 7 };
}

export function benchPipeline(): void {
  line('(a) bytes → plan for 7 days with 8 limits, against JSON.parse of the same bytes (goal: at most 2.0)');
  for (const { name, bytes } of documents()) {
    const buffer = Buffer.from(bytes);
    const input = planInput(readGridpoint(bytes, { fetchedAtMs: 0 }).forecast);
    const calendar = planCalendar(input.site, input.firstDate, input.dayCount);
    // The service takes the content hash once, when bytes arrive, and keeps a site's calendar.
    const documentId = documentIdOf(bytes);
    const read = () => readGridpoint(bytes, { fetchedAtMs: 0, documentId }).forecast;
    const times = sideBySide([
      { name: 'JSON.parse', run: () => JSON.parse(buffer.toString('utf8')) },
      { name: 'decode', run: read },
      { name: 'whole', run: () => makePlan({ ...input, forecast: read(), calendar }) },
      { name: 'without anything kept', run: () => makePlan({ ...input, forecast: read() }) },
      { name: 'hash', run: () => documentIdOf(bytes) },
    ]);
    const parseUs = times[0]?.medianUs ?? Number.NaN;
    line(`    ${name} (${(bytes.length / 1024).toFixed(0)} KiB): JSON.parse ${parseUs.toFixed(0)} µs`);
    for (const t of times.slice(1)) line(`      ${t.name.padEnd(22)} ${t.ratio.toFixed(2)}`);
  }
}

export function benchSites(): void {
  const [document] = documents();
  if (!document) return;
  const { forecast } = readGridpoint(document.bytes, { fetchedAtMs: 0 });
  const input = planInput(forecast);
  const sites = Array.from({ length: 5000 }, (_, i) => ({
    ...input.site,
    id: `site-${i}`,
    place: { latDeg: 30 + (i % 100) * 0.1, lonDeg: -120 + Math.floor(i / 100) * 0.5 },
  }));
  for (const site of sites.slice(0, 300)) makePlan({ ...input, site, forecast });
  const start = performance.now();
  for (const site of sites) makePlan({ ...input, site, forecast });
  const ms = performance.now() - start;
  line(
    `(c) 5,000 sites planned from memory, 7 days each, on one core: ${(ms / 1000).toFixed(2)} s, ${(ms / sites.length).toFixed(3)} ms per site`,
  );
}

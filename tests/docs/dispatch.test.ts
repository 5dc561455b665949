// Every sample of docs/dispatch.md does what the page says, run as it stands against a service in which a pit burns.

import { spawnSync } from 'node:child_process';
import { check } from '@placemarkio/check-geojson';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { expectRules } from '../publish/calendar/calendar-rules.ts';
import { readCsv } from '../publish/list/read-csv.ts';
import { type Keyed, startKeyed } from '../service/keyed.ts';
import { runSample, samplesOf } from './run-samples.ts';

const hasCurl = spawnSync('curl', ['--version']).status === 0;
if (!hasCurl) console.log('No curl here: the samples that use it are skipped.');

let demo: Keyed;
const env = { PITWARD: '', KEY: '' };

beforeAll(async () => {
  demo = await startKeyed('2026-04-14T17:00:00Z');
  env.PITWARD = await demo.service.app.listen({ host: '127.0.0.1', port: 0 });
  env.KEY = await demo.mint({ scopes: ['read'] });
  const authorization = `Bearer ${await demo.mint({ scopes: ['admin'] })}`;
  const { statusCode } = await demo.service.app.inject({
    ...{ method: 'POST', url: '/v1/sites/north-block/burns', headers: { authorization } },
    payload: { tap: 'lit', by: 'Ana' },
  });
  expect(statusCode).toBe(201);
});
afterAll(() => demo.close());

/** By the heading that they stand under: what of each must be in what it prints. Every other is to run without a fault. */
const PRINTS: Readonly<Record<string, (out: string) => void>> = {
  'Ask: poll the log': (out) => expect(out).toMatch(/^\d+ burn-lit north-block \S/m),
  'Be told: the stream': (out) => {
    expect(out).toMatch(/^nothing is left out up to 0$/m);
    expect(out).toMatch(/^\d+ burn-lit north-block \S/m);
  },
  'Replay after a gap': (out) => {
    expect(out).toMatch(/^north-block lit$/m);
    expect(out).toMatch(/^[1-9]\d* events since; read on from [1-9]\d*$/m);
  },
  'Maps: GeoJSON': (out) => {
    const maps = out.split(/(?<=\})(?=\{"type":"FeatureCollection")/);
    expect(maps).toHaveLength(3);
    for (const map of maps) check(map);
    expect(maps[1]).toContain('"burn"');
  },
  'Calendars: iCalendar': (out) => {
    const calendars = out.split(/(?<=END:VCALENDAR\r\n)/);
    expect(calendars).toHaveLength(2);
    for (const calendar of calendars) expect(expectRules(calendar).length).toBeGreaterThan(0);
  },
  'Tables: CSV': (out) => {
    const heads = readCsv(out).filter(([first]) => first === 'site');
    expect(heads.map(([, second]) => second)).toEqual(['burn', 'verdict']);
  },
};

const SAMPLES = samplesOf('docs/dispatch.md');

describe('docs/dispatch.md', () => {
  it('has a sample under each of these headings', () => {
    const headings = SAMPLES.map(({ heading }) => heading);
    for (const heading of Object.keys(PRINTS)) expect(headings).toContain(heading);
  });

  for (const sample of SAMPLES)
    it.skipIf(sample.language === 'sh' && !hasCurl)(`${sample.heading}, ${sample.language}`, async () => {
      const { out, err, exit } = await runSample(sample, env);
      expect([exit, err]).toEqual([sample.until === null ? 0 : null, '']);
      PRINTS[sample.heading]?.(out);
    });
});

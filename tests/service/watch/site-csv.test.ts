// Burns and windows as tables, read back by the grammar of RFC 4180 and held against what the JSON routes say.

import { expect, it } from 'vitest';
import { readCsv } from '../../publish/list/read-csv.ts';
import { startBurning } from './start-burning.ts';
import { SITE, type WatchedDemo } from './watched-demo.ts';

async function tableOf(demo: WatchedDemo, url: string): Promise<Record<string, string>[]> {
  const { statusCode, headers, body } = await demo.service.app.inject({ url });
  expect([statusCode, headers['content-type']]).toEqual([200, 'text/csv; charset=utf-8; header=present']);
  const [head = [], ...rows] = readCsv(body);
  for (const row of rows) expect(row).toHaveLength(head.length);
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [head[i] ?? '', cell])));
}

it('a burn is a row with the taps that count, whatever people have written', async () => {
  const demo = await startBurning();
  const [burn] = (await demo.api('GET', `${SITE}/burns`)).body['burns'] as { id: string; litAt: string }[];
  const tap = (body: object) => demo.api('POST', `${SITE}/burns/${burn?.id}/taps`, { by: 'Ana', ...body });
  const wrong = await tap({ tap: 'charging', note: '=cmd|"/c calc"!A0' });
  const taps = wrong.body['taps'] as { id: string; tap: string }[];
  demo.pass(5);
  await tap({
    tap: 'charging',
    corrects: taps.find((one) => one.tap === 'charging')?.id,
    by: 'Ben, "the lead"',
    note: '-2 loads,\nwet',
  });
  const charging = new Date(demo.clock.nowMs).toISOString();
  const [row] = await tableOf(demo, `${SITE}/burns.csv`);
  expect(row).toMatchObject({
    site: 'north-block',
    burn: burn?.id,
    state: 'charging',
    lit_at: burn?.litAt,
    covered_tapped_at: '',
    tapped_by: 'Ana; Ben, "the lead"',
    notes: "'-2 loads,\nwet",
  });
  expect(new Date(row?.['charging_tapped_at'] ?? '').toISOString()).toBe(charging);
  expect(await tableOf(demo, `${SITE}/burns.csv?from=2026-04-10T00:00:00Z&to=2026-04-11T00:00:00Z`)).toEqual(
    [],
  );
});

it('windows are those of the JSON route with their gravest reason', async () => {
  const demo = await startBurning();
  const query = '?from=2026-04-14&to=2026-04-16&lang=es';
  const { body } = await demo.api('GET', `${SITE}/windows${query}`);
  const windows = body['windows'] as Record<string, unknown>[];
  const rows = await tableOf(demo, `${SITE}/windows.csv${query}`);
  expect(rows.map(({ verdict, from, to, standing }) => ({ verdict, from, to, standing }))).toEqual(
    windows.map(({ verdict, from, to, standing }) => ({ verdict, from, to, standing })),
  );
  expect(new Set(rows.map(({ verdict }) => verdict)).size).toBeGreaterThan(1);
  for (const [i, { reasons, tightest }] of windows.entries()) {
    const [gravest] = reasons as { text: string; code: string }[];
    const { value, unit } = (tightest ?? { value: '', unit: '' }) as { value: number; unit: string };
    expect(rows[i]).toMatchObject({
      ...{ reason: gravest?.text ?? '', reason_code: gravest?.code ?? '' },
      ...{ tightest_value: String(value), tightest_unit: unit },
    });
  }
  expect((await demo.service.app.inject({ url: `${SITE}/windows.csv?day=never` })).statusCode).toBe(400);
});

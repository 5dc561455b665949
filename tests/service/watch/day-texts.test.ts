// The evening text and the dawn text: at most one of each for a local date, over nights in which the clock is changed and
// over restarts. Nights: the United States change their clocks on the second Sunday of March and the first of November,
// at two in the morning (15 U.S.C. 260a).

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { type Gateway, startGateway } from './gateway.ts';
import { keptIn } from './kept-in.ts';
import { CREW, LEAD, OFFICE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const texts = (evening: string, dawn: string) => (yaml: string) =>
  yaml.replace('- id: north-block\n', `$&    texts: { evening: "${evening}", dawn: "${dawn}" }\n`);

interface Night {
  readonly demo: WatchedDemo;
  readonly gateway: Gateway;
  restart(): Promise<void>;
}

/** A service over a file, which can be started again. */
async function startNight(nowText: string, change = (yaml: string) => yaml): Promise<Night> {
  const folder = mkdtempSync(join(tmpdir(), 'pitward-night-'));
  closing.push(() => rmSync(folder, { recursive: true, force: true }));
  const gateway = await startGateway();
  closing.push(gateway.close);
  const start = (text: string) =>
    startWatchedDemo(text, change, { gateway, openKept: keptIn({ sqliteFile: join(folder, 'night.db') }) });
  const night = {
    demo: await start(nowText),
    gateway,
    async restart() {
      await night.demo.close();
      night.demo = await start(new Date(night.demo.clock.nowMs).toISOString());
    },
  };
  closing.push(() => night.demo.close());
  return night;
}

/** Goes on in steps, looking each time; gives the moments at which somebody was told something. */
async function until(night: Night, endText: string, stepMin: number): Promise<Record<string, string[]>> {
  const came: Record<string, string[]> = { [CREW]: [], [LEAD]: [], [OFFICE]: [] };
  while (night.demo.clock.nowMs < Date.parse(endText)) {
    const before = night.gateway.texts.length;
    await night.demo.minute();
    for (const { to } of night.gateway.texts.slice(before)) {
      came[to]?.push(new Date(night.demo.clock.nowMs).toISOString().slice(0, 16));
    }
    night.demo.pass(stepMin);
  }
  return came;
}

describe('evening and dawn texts', () => {
  it('go to the crew of the site once each, however often it is looked, and not again after a restart', async () => {
    const night = await startNight('2026-04-13T23:50:00Z');
    // 17:05 in the summer of California is 00:05 UTC.
    const evening = await until(night, '2026-04-14T00:30:00Z', 5);
    expect(evening).toEqual({ [CREW]: ['2026-04-14T00:05'], [LEAD]: ['2026-04-14T00:05'], [OFFICE]: [] });
    const [first] = night.gateway.texts;
    expect(first?.text).toMatch(/^DEMO Nor.*pit 1 Tue: GO\. Light 9:00 am, /);
    await night.restart();
    expect(await until(night, '2026-04-14T01:00:00Z', 5)).toEqual({ [CREW]: [], [LEAD]: [], [OFFICE]: [] });
    night.demo.clock.nowMs = Date.parse('2026-04-14T11:40:00Z');
    await night.restart();
    const dawn = await until(night, '2026-04-14T12:00:00Z', 5);
    expect(dawn).toEqual({ [CREW]: ['2026-04-14T11:45'], [LEAD]: ['2026-04-14T11:45'], [OFFICE]: [] });
    await night.restart();
    expect(await until(night, '2026-04-14T12:20:00Z', 5)).toEqual({ [CREW]: [], [LEAD]: [], [OFFICE]: [] });
  });

  it.each([
    // Two o'clock to three is skipped on this night: half past two is told at half past three.
    ['is skipped', '2026-03-08T06:00:00Z', '2026-03-08T14:00:00Z', '02:30', '2026-03-08T10:30'],
    // One o'clock to two comes twice on this night: the first one counts.
    ['comes twice', '2026-11-01T06:00:00Z', '2026-11-01T14:00:00Z', '01:30', '2026-11-01T08:30'],
  ])('come once on the night in which the hour %s', async (_name, from, to, dawn, expected) => {
    const night = await startNight(from, texts('17:05', dawn));
    // Started again between the two hours of the same name.
    const before = await until(night, from.replace('T06', 'T09'), 30);
    await night.restart();
    const after = await until(night, to, 30);
    expect([...(before[CREW] ?? []), ...(after[CREW] ?? [])]).toEqual([expected]);
    expect([...(before[OFFICE] ?? []), ...(after[OFFICE] ?? [])]).toEqual([]);
  });
});

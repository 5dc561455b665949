// What comes and goes, and what nobody can say: a value about its limit, an instrument, a forecast and alerts that are lost
// while a fire burns. Who burns is told when nobody looks for them any more, and never that something is over for lack of
// data (pgEdge/ai-dba-workbench#407, grafana#16290).

import { describe, expect, it, onTestFinished } from 'vitest';
import { type Front, startFront } from '../front.ts';
import { startBurning } from './start-burning.ts';
import { CREW, SITE, type WatchedDemo } from './watched-demo.ts';

/** A steady wind is never the same twice. */
const wandering = (i: number) => ({ fromDeg: 205 + ((i * 7) % 11), mph: 8 + ((i * 3) % 4) / 10 });

/** Minute by minute in fives; whatever the crew is told it answers. Gives what it was told, each with its clock. */
async function goOn(
  demo: WatchedDemo,
  steps: number,
  reading: ((i: number) => object) | null,
  whole = true,
): Promise<string[]> {
  const heard: string[] = [];
  for (let i = 0; i < steps; i += 1) {
    if (reading !== null) await demo.reads({ ...wandering(i), ...reading(i) });
    await (whole ? demo.minute() : demo.tells());
    const fresh = demo.heardBy(CREW).map((text) => text.replace(/^DEMO North ?bl[^:]*: /, ''));
    heard.push(...fresh);
    demo.pass(1);
    if (fresh.length > 0) await demo.inbound(CREW, '1');
    demo.pass(4);
  }
  return heard;
}

describe('a value that is now beyond its limit by one and now within it', () => {
  it.each([
    ['hold', 20, /^NO WOOD\. Observed gust 21 mph/],
    ['stop', 25, /^PUT IT OUT\. Observed gust 26 mph/],
  ])('for three hours is told twice at most (%s at %i mph)', async (_, limit, text) => {
    const demo = await startBurning((yaml) =>
      yaml.replaceAll('lastChargeBy: "15:00"', 'lastChargeBy: "16:00"'),
    );
    const heard = await goOn(demo, 36, (i) => ({ gustMph: i % 2 === 0 ? limit + 1 : limit - 1 }), false);
    expect(heard[0]).toMatch(text);
    const ofGust = heard.filter((one) => /gust/.test(one));
    expect(ofGust.length).toBeLessThanOrEqual(2);
    // Nobody is told that it is over while it comes and goes, and it stands to the end.
    expect(heard.filter((one) => /Over/.test(one))).toEqual([]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe(limit === 25 ? 'stop' : 'hold');
  });
});

describe('an instrument that is lost while a fire burns', () => {
  it('is told when it has been silent for two and a half of its periods, and once; and when it is back', async () => {
    const demo = await startBurning();
    await demo.reads();
    expect(await goOn(demo, 2, null)).toEqual([]);
    expect(await goOn(demo, 4, null)).toEqual([
      expect.stringMatching(/^NO WOOD\. No reading from mast since 10:05 am: watch the wind\./),
    ]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('hold');
    const back = await goOn(demo, 8, () => ({}));
    expect(back).toEqual([expect.stringMatching(/^NOTE\. Over at .*: silent station mast\./)]);
  });

  it('takes nothing back that it had told: what stood stands, and nobody can say', async () => {
    const demo = await startBurning();
    const told = await goOn(demo, 2, () => ({ gustMph: 30 }));
    expect(told).toEqual([expect.stringMatching(/^PUT IT OUT\. Observed gust 30 mph/)]);
    const lost = await goOn(demo, 8, null);
    expect(lost.some((text) => /Cannot tell now; last: observed gust 30 mph/.test(text))).toBe(true);
    expect(lost.filter((text) => /Over/.test(text))).toEqual([]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('stop');
  });
});

/** A fire burns, and everything of the weather service comes through a front. */
async function behindFront(change?: (yaml: string) => string): Promise<{ front: Front; demo: WatchedDemo }> {
  const front = await startFront();
  onTestFinished(front.close);
  const baseUrlOf = (url: string): string => {
    front.behind(url);
    return front.baseUrl;
  };
  return { front, demo: await startBurning(change, { baseUrlOf }) };
}

describe('a weather service that is lost while a fire burns', () => {
  it('is told when its forecast has grown too old, with what that means; duties stay those that were told', async () => {
    const { front, demo } = await behindFront((yaml) =>
      yaml.replace('- id: north-block\n', '$&    quality: { warnAfter: 60 min, holdAfter: 100 min }\n'),
    );
    front.state.gridFails = true;
    const heard = await goOn(demo, 15, () => ({}));
    expect(heard).toEqual([
      expect.stringMatching(/^NO WOOD\. No new forecast since 9:22 am: decide by eye\./),
    ]);
    front.state.gridFails = false;
    const back = await goOn(demo, 8, () => ({}));
    expect(back).toEqual([expect.stringMatching(/^NOTE\. Over at .*: old forecast\./)]);
  });

  it('is told when its alerts cannot be read for some minutes, and not for one answer that fails', async () => {
    const { front, demo } = await behindFront();
    front.state.alertsFail = true;
    expect(await goOn(demo, 1, () => ({}))).toEqual([]);
    // It is a hold from the first on, told or not.
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('hold');
    front.state.alertsFail = false;
    expect(await goOn(demo, 2, () => ({}))).toEqual([]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('go');
    front.state.alertsFail = true;
    expect(await goOn(demo, 4, () => ({}))).toEqual([
      expect.stringMatching(/^NO WOOD\. Official alerts cannot be read\./),
    ]);
  });
});

describe('an official alert that is issued while a fire burns', () => {
  it('is told at once; issued anew it is the same, and is not over because its list cannot be read', async () => {
    const { front, demo } = await behindFront();
    const ends = '2026-04-15T03:00:00+00:00';
    const issued = (sent: string) => ({ sent, onset: '2026-04-14T17:00:00+00:00', ends });
    front.state.warning = issued('2026-04-14T17:05:00+00:00');
    expect(await goOn(demo, 3, () => ({}))).toEqual([
      expect.stringMatching(/^PUT IT OUT\. Official alert: Red Flag Warning from 10:00 am\./),
    ]);
    front.state.warning = issued('2026-04-14T17:20:00+00:00');
    expect(await goOn(demo, 3, () => ({}))).toEqual([]);
    front.state.alertsFail = true;
    const lost = await goOn(demo, 4, () => ({}));
    expect(lost.filter((text) => /Over/.test(text))).toEqual([]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('stop');
  });
});

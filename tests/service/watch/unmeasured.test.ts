// Sites at which nobody measures the wind: the crew is told once at light-up, and the pages say it before and after.

import { describe, expect, it } from 'vitest';
import { wordsOf } from '../../publish/page/read-page.ts';
import { startForTest, TEN } from './start-burning.ts';
import { CREW, SITE, type WatchedDemo } from './watched-demo.ts';

const without = (what: RegExp) => (yaml: string) => yaml.replace(what, '');
const MAST = /^ {6}- \{ id: mast,.*\n/m;
const METER = /^ {6}- \{ id: meter,.*\n/m;

const page = async (demo: WatchedDemo, url: string) =>
  wordsOf((await demo.service.app.inject({ method: 'GET', url })).body);
const verdict = async (demo: WatchedDemo) => (await demo.api('GET', `${SITE}/now`)).body['verdict'];

const passes = async (demo: WatchedDemo, minutes: number): Promise<void> => {
  for (let i = 0; i < minutes; i += 5) {
    demo.pass(5);
    await demo.minute();
  }
};

const TOLD = /Nobody measures the wind|Wind not measured/;

describe('where nobody measures the wind', () => {
  it('and a meter is to be read, the crew is told what to do, and a reading ends the hold', async () => {
    const demo = await startForTest(TEN, without(MAST));
    expect(await page(demo, '/sites/north-block')).toMatch(/read the hand-held meter now and every 60 min/);
    // It can be read before the light-up.
    expect(await page(demo, '/sites/north-block')).toContain('Enter a reading');
    await demo.lights();
    await demo.minute();
    const told = demo.heardBy(CREW);
    expect(told.filter((text) => TOLD.test(text) || /\+\d more/.test(text))).toHaveLength(1);
    expect(told.join()).not.toMatch(/No reading/);
    expect(await verdict(demo)).toBe('hold');
    expect(await page(demo, '/sites/north-block/now')).toContain('read the hand-held meter');
    const { body } = await demo.api('POST', `${SITE}/observations`, {
      station: 'meter',
      time: new Date(demo.clock.nowMs).toISOString(),
      windSpeed: '8 mph',
      windDirection: 198,
    });
    expect(body['results']).toMatchObject([{ outcome: 'kept' }]);
    expect((await demo.told('wind-unmeasured')).flatMap(({ kinds }) => kinds)).toEqual(['raised', 'over']);
    expect(await page(demo, '/sites/north-block/now')).not.toMatch(TOLD);
  });

  it('and no station was written down, it is told once as advice and said on the pages', async () => {
    const demo = await startForTest(TEN, (yaml) =>
      without(METER)(without(MAST)(yaml)).replace(/^ {4}stations:\n(?! {6}-)/m, ''),
    );
    await demo.lights();
    await passes(demo, 60);
    expect((await demo.told('wind-unmeasured')).flatMap(({ kinds }) => kinds)).toEqual(['raised']);
    expect(demo.heardBy(CREW).filter((text) => TOLD.test(text))).toHaveLength(1);
    for (const url of ['/sites/north-block', '/sites/north-block/now']) {
      expect(await page(demo, url)).toMatch(/there is only the forecast: watch wind and smoke/);
    }
  });
});

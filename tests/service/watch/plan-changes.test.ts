// The plan changes after people were told of it: before anybody lights, and while a fire burns.

import { describe, expect, it } from 'vitest';
import { startBurning, startForTest } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

/** No ventilation is enough. Nobody measures it at a pit: it is known from the forecast alone. */
const NEVER = [
  { element: 'ventilationRate', atLeast: { hold: '900000 kt-ft', stop: '800000 kt-ft' }, source: 'county' },
];

/** The last wood twenty minutes earlier: too little for a notice of its own. */
const earlier = (limits: readonly { clock?: object }[]) =>
  limits.map((limit) =>
    limit.clock ? { ...limit, clock: { ...limit.clock, lastChargeBy: '12:10' } } : limit,
  );

/** 17:05 at the site, when the evening text is due. */
const EVENING = '2026-04-14T00:05:00Z';
const LOCAL = new Intl.DateTimeFormat('en-GB', {
  timeZone: 'America/Los_Angeles',
  hour: '2-digit',
  minute: '2-digit',
});

/** Goes on to a moment in steps; gives what a number is told, each with the clock of the site. */
async function until(demo: WatchedDemo, number: string, endText: string, stepMin: number): Promise<string[]> {
  const heard: string[] = [];
  while (demo.clock.nowMs < Date.parse(endText)) {
    demo.pass(stepMin);
    await demo.minute();
    heard.push(...demo.heardBy(number).map((text) => `${LOCAL.format(demo.clock.nowMs)} ${text}`));
  }
  return heard;
}

describe('a night after the evening text', () => {
  it('in which nothing changes brings "same as last evening" at dawn', async () => {
    const demo = await startForTest(EVENING);
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(/Tue: GO\. Light 9:00 am/)]);
    const heard = await until(demo, CREW, '2026-04-14T12:30:00Z', 60);
    expect(heard).toEqual([
      expect.stringMatching(/^05:05 .* today: Same as last evening\. GO\. Light 9:00 am/),
    ]);
  });

  it('in which a time moves by less than half an hour is told at dawn, with what it was', async () => {
    const demo = await startForTest(EVENING);
    await demo.minute();
    demo.heardBy(CREW);
    const { body } = await demo.api('GET', '/v1/limit-sets/valley');
    const limits = body['body'] as { clock?: object }[];
    await demo.limits(earlier(limits));
    const heard = await until(demo, CREW, '2026-04-14T12:30:00Z', 60);
    expect(heard).toEqual([
      expect.stringMatching(/^05:05 .* today: CHANGED\. GO\. .*last wood 12:10 pm \(was 12:30 pm\)/),
    ]);
  });

  it('in which the plan becomes worse is told at once and once, at dawn as changed, and never as over', async () => {
    const demo = await startForTest(EVENING);
    await demo.minute();
    demo.heardBy(CREW);
    expect(await until(demo, CREW, '2026-04-14T02:00:00Z', 60)).toEqual([]);
    await demo.limits(NEVER);
    const night = await until(demo, CREW, '2026-04-14T11:00:00Z', 60);
    expect(night).toEqual([
      expect.stringMatching(/^20:05 .*: NO FIRE\. .* the day is now NO FIRE \(light-up was Tue 9:00 am\)/),
    ]);
    const day = await until(demo, CREW, '2026-04-14T18:00:00Z', 60);
    expect(day).toEqual([expect.stringMatching(/^05:05 .* today: CHANGED\. Was GO\. NO FIRE\./)]);
  });

  it('wakes nobody in their quiet hours, and nobody lights before they were told', async () => {
    const demo = await startForTest(EVENING, (yaml) =>
      yaml
        .replace('- id: north-block\n', '$&    texts: { dawn: none }\n')
        .replace('name: Ana, role: crew,', '$& quiet: { from: "19:00", to: "05:30" },'),
    );
    await demo.minute();
    demo.heardBy(CREW);
    demo.heardBy(LEAD);
    await demo.limits(NEVER);
    demo.clock.nowMs = Date.parse('2026-04-14T02:30:00Z');
    await demo.minute();
    expect(demo.heardBy(LEAD)).toEqual([expect.stringContaining('the day is now NO FIRE')]);
    const heard = await until(demo, CREW, '2026-04-14T13:30:00Z', 60);
    expect(heard).toEqual([expect.stringMatching(/^05:30 .* the day is now NO FIRE/)]);
    expect(demo.heardBy(LEAD)).toEqual([]);
    // From seven on is what was to be a hold a stop: that has come, and is told when it has.
    const morning = await until(demo, CREW, '2026-04-14T16:00:00Z', 30);
    expect(morning).toEqual([expect.stringMatching(/^07:00 .*: NO FIRE\. Worse: forecast/)]);
  });

  it.each([
    ['no go', () => NEVER, [/ the day is now NO FIRE/, / today: CHANGED\. Was GO\. NO FIRE\./]],
    ['a little shorter', earlier, [/ today: CHANGED\. GO\. .*last wood 12:10 pm \(was 12:30 pm\)/]],
  ])(
    'tells who slept over the dawn text the day as it is when they wake: %s',
    async (_, change, expected) => {
      const demo = await startForTest(EVENING, (yaml) =>
        yaml.replace('name: Ana, role: crew,', '$& quiet: { from: "19:00", to: "06:00" },'),
      );
      await demo.minute();
      demo.heardBy(CREW);
      demo.heardBy(LEAD);
      demo.clock.nowMs = Date.parse('2026-04-14T11:30:00Z');
      expect(await until(demo, CREW, '2026-04-14T11:45:00Z', 5)).toEqual([]);
      expect(demo.heardBy(LEAD)).toEqual([expect.stringMatching(/ today: Same as last evening\. GO\./)]);
      expect(await until(demo, CREW, '2026-04-14T12:30:00Z', 15)).toEqual([]);
      const { body } = await demo.api('GET', '/v1/limit-sets/valley');
      await demo.limits(change(body['body'] as { clock?: object }[]));
      const heard = await until(demo, CREW, '2026-04-14T13:10:00Z', 10);
      expect(heard).toEqual(expected.map((said) => expect.stringMatching(said)));
      expect(heard.every((text) => text.startsWith('06:00'))).toBe(true);
    },
  );

  it('in which no forecast came: a dawn text of before the next one has no figures of it', async () => {
    const demo = await startForTest(EVENING);
    await demo.minute();
    demo.heardBy(CREW);
    demo.clock.nowMs = Date.parse('2026-04-14T11:45:00Z');
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(/CANNOT SAY, DO NOT LIGHT\. Crew on site/)]);
  });
});

describe('a plan that becomes worse while a fire burns', () => {
  it('is told until somebody answers; then it still is so, is not over, and nobody had lit against it', async () => {
    const demo = await startBurning();
    await demo.limits(NEVER);
    await demo.reads();
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(/: PUT IT OUT\. .* NO FIRE/)]);
    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    const heard: string[] = [];
    for (let i = 0; i < 6; i += 1) {
      demo.pass(5);
      await demo.reads();
      await demo.minute();
      heard.push(...demo.heardBy(CREW));
    }
    expect(heard).toEqual([]);
    expect(demo.heardBy(OFFICE)).toEqual([]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('stop');
  });

  it('is not told again, hours after the crew has answered and nothing else was told', async () => {
    // Nine at the site; its shift is over before the wind turns at three, so that nothing else stands meanwhile.
    const demo = await startForTest('2026-04-14T16:00:00Z', (yaml) =>
      yaml.replace('to: "17:00" }', 'to: "14:45" }'),
    );
    const go = (lightFrom: string, lastChargeBy: string) =>
      demo.limits([
        { element: 'windSpeed', atMost: { hold: '60 mph', stop: '70 mph' }, source: 'our rule' },
        { clock: { lightFrom, lastChargeBy }, source: 'permit 26-014' },
      ]);
    await go('08:00', '12:10');
    await demo.reads();
    await demo.lights();
    await demo.minute();
    demo.pass(5);
    await go('09:15', '13:10');
    await demo.reads();
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(/is worse: NO WOOD from 9:05 am/)]);
    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    const heard: string[] = [];
    for (let i = 0; i < 21; i += 1) {
      demo.pass(10);
      await demo.reads({ fromDeg: 205 + 5 * (i % 3) });
      await demo.minute();
      heard.push(...demo.heardBy(CREW).map((text) => `${LOCAL.format(demo.clock.nowMs)} ${text}`));
    }
    expect(heard).toEqual([]);
  });
});

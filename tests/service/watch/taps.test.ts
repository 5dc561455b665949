// What the crew taps: late, twice, wrong and put right; and the duties of a burn by the clock, from the last wood to the
// days after the cover.

import { beforeAll, describe, expect, it } from 'vitest';
import { startBurning, startForTest, TEN } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

type Body = Record<string, unknown>;
type Tapped = { id: string; tap: string; counts: boolean };

const tapsOf = (body: Body): Tapped[] => body['taps'] as Tapped[];

describe('taps of a phone without signal', () => {
  it('come late, in any order and twice, and keep their own time', async () => {
    const demo = await startForTest('2026-04-14T19:05:00Z');
    await demo.reads();
    const lit = { id: 'tap-lit-late', tap: 'lit', by: 'Ana', at: '2026-04-14T16:40:00Z', from: 'phone' };
    const tap = (body: object) => demo.api('POST', `${SITE}/burns/burn-tap-lit-late/taps`, body);
    const covered = { id: 'tap-covered-late', tap: 'covered', by: 'Ana', at: '2026-04-14T18:50:00Z' };
    // Of a burn that nobody knows yet there is nothing to tap; the phone tries again.
    expect((await tap(covered)).status).toBe(404);
    expect((await demo.api('POST', `${SITE}/burns`, lit)).status).toBe(201);
    expect((await demo.api('POST', `${SITE}/burns`, lit)).status).toBe(200);
    expect((await demo.api('GET', `${SITE}/now`)).body['burn']).not.toBeNull();
    expect((await tap(covered)).status).toBe(201);
    const last = await tap({
      id: 'tap-charging-late',
      tap: 'charging',
      by: 'Ana',
      at: '2026-04-14T17:10:00Z',
    });
    expect(last.body).toMatchObject({
      state: 'covered',
      openedAt: expect.stringContaining('T09:40:00'),
      closedAt: expect.stringContaining('T11:50:00'),
    });
    expect(tapsOf(last.body).map(({ tap: what }) => what)).toEqual(['lit', 'charging', 'covered']);
    await demo.minute();
    // Lit in its go, and covered before the last wood was due: nothing of it is told any more.
    demo.gateway.texts.length = 0;
    demo.pass(30);
    await demo.minute();
    expect(demo.gateway.texts).toEqual([]);
  });

  it('from a clock that is far ahead or a week behind are refused', async () => {
    const demo = await startForTest(TEN);
    const lit = (at: string) => demo.api('POST', `${SITE}/burns`, { tap: 'lit', by: 'Ana', at });
    expect((await lit('2026-04-14T17:06:00Z')).status).toBe(400);
    expect((await lit('2026-04-07T16:59:00Z')).status).toBe(400);
    expect((await lit('2026-04-14T17:04:00Z')).status).toBe(201);
  });
});

describe('a tap that was wrong', () => {
  it('is put right by a new one, and stays in the record', async () => {
    const demo = await startForTest(TEN);
    await demo.reads();
    const opened = await demo.api('POST', `${SITE}/burns`, { id: 'tap-lit-0001', tap: 'lit', by: 'Ana' });
    const url = `${SITE}/burns/${opened.body['id']}/taps`;
    const put = await demo.api('POST', url, {
      tap: 'lit',
      by: 'Office',
      at: '2026-04-14T16:30:00Z',
      corrects: 'tap-lit-0001',
      note: 'the phone was in the truck',
    });
    expect([put.status, put.body['openedAt']]).toEqual([201, expect.stringContaining('T09:30:00')]);
    expect(
      tapsOf(put.body)
        .map(({ counts }) => counts)
        .sort(),
    ).toEqual([false, true]);
    expect((await demo.api('POST', url, { tap: 'lit', by: 'Ana', corrects: 'no such tap' })).status).toBe(
      400,
    );
  });

  it('that never happened is withdrawn: a pit that was said to be covered is watched again', async () => {
    const demo = await startBurning();
    const { body } = await demo.api('GET', `${SITE}/now`);
    const url = `${SITE}/burns/${(body['burn'] as Body)['id']}/taps`;
    const covered = await demo.api('POST', url, { id: 'tap-covered-1', tap: 'covered', by: 'Ana' });
    expect(covered.body['closedAt']).not.toBeNull();
    demo.pass(5);
    // Nobody watches a covered pit.
    await demo.reads({ fromDeg: 290 });
    await demo.tells();
    expect(demo.heardBy(CREW)).toEqual([]);
    const withdrawn = await demo.api('POST', url, {
      tap: 'covered',
      by: 'Ben',
      corrects: 'tap-covered-1',
      withdraws: true,
    });
    expect(withdrawn.body).toMatchObject({ state: 'lit', closedAt: null });
    await demo.tells();
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(/: PUT IT OUT\. Smoke goes to county road/)]);
  });
});

describe('a pit that is lit while the plan says hold', () => {
  it('is recorded, never refused; the office is told at once, and the crew asked', async () => {
    // 08:30 at the site: go begins at nine.
    const demo = await startForTest('2026-04-14T15:30:00Z');
    await demo.reads();
    await demo.lights();
    await demo.minute();
    const against = /Pit lit at 8:30 am, plan said DO NOT LIGHT/;
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(against)]);
    expect(demo.heardBy(OFFICE)).toEqual([expect.stringMatching(against)]);
    expect(demo.heardBy(CREW).length + demo.heardBy(LEAD).length).toBe(0);
  });
});

describe('the last wood', () => {
  it('that nobody has answered is over with the tap, in silence: no more repeats, and no note to those who tapped', async () => {
    const demo = await startBurning();
    const { body } = await demo.api('GET', `${SITE}/now`);
    const url = `${SITE}/burns/${(body['burn'] as Body)['id']}/taps`;
    demo.clock.nowMs = Date.parse('2026-04-14T12:30:00-07:00');
    await demo.reads();
    await demo.minute();
    expect(demo.heardBy(CREW)).toContainEqual(expect.stringMatching(/NO MORE WOOD/));
    demo.pass(2);
    expect((await demo.api('POST', url, { tap: 'burning-down', by: 'Ana' })).status).toBe(201);
    await demo.tells();
    // Told again after 5, 10 and 15 minutes, and the next after 10, had it not been tapped.
    for (let i = 0; i < 4; i += 1) {
      demo.pass(5);
      await demo.reads();
      await demo.minute();
    }
    expect([...demo.heardBy(CREW), ...demo.heardBy(LEAD)]).toEqual([]);
    expect(await demo.told('last-charge-due')).toEqual([expect.objectContaining({ kinds: ['raised'] })]);
  });
});

describe('a burn by the clock', () => {
  let demo: WatchedDemo;
  let burn = '';
  beforeAll(async () => {
    demo = await startWatchedDemo(TEN);
    await demo.reads();
    burn = await demo.lights();
    await demo.minute();
    return demo.close;
  });

  /** To a clock time of a date at the site, which is seven hours behind; what the crew and the office hear there. */
  async function at(text: string): Promise<{ crew: string[]; office: string[] }> {
    for (const number of [CREW, LEAD, OFFICE]) demo.heardBy(number);
    demo.clock.nowMs = Date.parse(`2026-${text.replace(' ', 'T')}:00-07:00`);
    await demo.reads();
    await demo.minute();
    const heard = (number: string) => demo.heardBy(number).map((one) => one.replace(/^DEMO [^:]*: /, ''));
    return { crew: heard(CREW), office: heard(OFFICE) };
  }
  const answered = async (): Promise<void> => {
    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
  };
  const tapped = async (tap: string): Promise<void> => {
    const { status } = await demo.api('POST', `${SITE}/burns/${burn}/taps`, { tap, by: 'Ana' });
    expect(status).toBe(201);
    await demo.tells();
  };

  it('is told half an hour before the last wood, and when it is due', async () => {
    expect((await at('04-14 11:59')).crew).toEqual([]);
    expect((await at('04-14 12:00')).crew).toEqual([
      expect.stringMatching(/^LAST WOOD\. Last wood at 12:30 pm/),
    ]);
    expect((await at('04-14 12:15')).crew).toEqual([]);
    expect((await at('04-14 12:30')).crew).toEqual([
      expect.stringMatching(/^NO MORE WOOD\. Last wood was due at 12:30 pm/),
    ]);
    await answered();
  });

  it('that burns down is told when to cover, and again when the time for it is up', async () => {
    await tapped('burning-down');
    expect((await at('04-14 13:29')).crew).toEqual([]);
    expect((await at('04-14 13:30')).crew).toEqual([
      expect.stringMatching(/^COVER THE PIT\. Pit to be covered by 2:00 pm/),
    ]);
    await answered();
    expect((await at('04-14 14:00')).crew).toEqual([
      expect.stringMatching(/^COVER THE PIT\. Worse: pit to be/),
    ]);
    await answered();
  });

  it('that is not covered by dusk is told to the office too', async () => {
    // Sunset of 14 April at 36.4 N, 120.2 W: 19:33 (NOAA solar calculator, from memory: within two minutes).
    expect((await at('04-14 19:25')).office).toEqual([]);
    const { crew, office } = await at('04-14 19:40');
    const dusk = /COVER THE PIT\. Not told covered; sunset was at 7:3\d pm/;
    expect(crew).toEqual([expect.stringMatching(dusk)]);
    expect(office).toEqual([expect.stringMatching(dusk)]);
    await answered();
  });

  it('that is covered is looked at again on the first, third and seventh day, and on no other', async () => {
    await tapped('covered');
    const days = ['04-15', '04-16', '04-17', '04-18', '04-19', '04-20', '04-21', '04-22'];
    const looks: string[] = [];
    for (const day of days) {
      for (const clock of ['07:59', '08:00', '09:00']) {
        const { crew } = await at(`${day} ${clock}`);
        const look = crew.find((text) => /LOOK AT THE PIT/.test(text));
        if (look) looks.push(`${day} ${clock} ${/day \d/.exec(look)?.[0]}`);
      }
    }
    expect(looks).toEqual(['04-15 08:00 day 1', '04-17 08:00 day 3', '04-21 08:00 day 7']);
  });
});

describe('the days after a cover', () => {
  const looksOn = async (demo: WatchedDemo, day: string): Promise<string[]> => {
    demo.heardBy(CREW);
    demo.clock.nowMs = Date.parse(`2026-${day}T08:00:00-07:00`);
    await demo.reads();
    await demo.minute();
    return demo.heardBy(CREW).filter((text) => text.includes('LOOK AT THE PIT'));
  };
  const tap = (demo: WatchedDemo, burn: string, body: object) =>
    demo.api('POST', `${SITE}/burns/${burn}/taps`, { by: 'Ana', ...body });

  it('are none of a light-up that was withdrawn, covered or not', async () => {
    const demo = await startBurning();
    const { body } = await demo.api('GET', `${SITE}/burns`);
    const [burn] = body['burns'] as { id: string; taps: { id: string }[] }[];
    const id = String(burn?.id);
    await tap(demo, id, { tap: 'covered', id: 'covered-1' });
    await tap(demo, id, { tap: 'lit', corrects: burn?.taps[0]?.id, withdraws: true });
    await tap(demo, id, { tap: 'covered', corrects: 'covered-1', withdraws: true });
    expect(await looksOn(demo, '04-15')).toEqual([]);
  });

  it('are kept though another pit was lit since', async () => {
    const demo = await startBurning();
    const { body } = await demo.api('GET', `${SITE}/burns`);
    const [burn] = body['burns'] as { id: string }[];
    await tap(demo, String(burn?.id), { tap: 'covered' });
    demo.clock.nowMs = Date.parse('2026-04-15T07:30:00-07:00');
    await demo.reads();
    await demo.lights();
    await demo.minute();
    await looksOn(demo, '04-15');
    expect(await demo.told('look-again')).toMatchObject([{ kinds: ['raised'] }]);
    demo.pass(60);
    await demo.reads();
    await demo.minute();
    expect(await demo.told('look-again')).toHaveLength(1);
  });
});

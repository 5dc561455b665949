// People: who may be told when, and who no longer wants to be.

import { describe, expect, it } from 'vitest';
import { startBurning, startForTest, TEN, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE } from './watched-demo.ts';

describe('quiet hours', () => {
  const quiet = (from: string, to: string) => (yaml: string) =>
    yaml.replace('name: Ana, role: crew,', `$& quiet: { from: "${from}", to: "${to}" },`);

  it('keep news away and let a stop on an open burn through', async () => {
    const demo = await startForTest(TEN, quiet('09:00', '11:00'));
    await demo.reads();
    await demo.lights();
    await demo.minute();
    // The turn that the forecast has in store is news: it waits.
    expect(demo.gateway.texts.map(({ to }) => to)).toEqual([LEAD]);
    demo.pass(5);
    await demo.reads(TURNED);
    await demo.service.watching.send();
    expect(demo.heardBy(CREW)).toEqual([expect.stringContaining('PUT IT OUT')]);
  });

  it('over midnight are those of the site: each stop passes, before and after it, and a hold asks the next at once', async () => {
    // 22:50 at the site. The zone of the machine that tests is another one.
    const demo = await startForTest('2026-04-15T05:50:00Z', quiet('21:00', '05:00'));
    await demo.reads();
    await demo.lights();
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(/: PUT IT OUT\. Pit lit at 10:50 pm/)]);
    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    demo.heardBy(LEAD);
    demo.pass(14);
    await demo.minute();
    // The instrument has gone silent: a hold.
    expect(demo.heardBy(CREW)).toEqual([]);
    // Beside the stop that stands it orders no less.
    expect(demo.heardBy(LEAD)).toEqual([expect.stringMatching(/PUT IT OUT\. No reading from mast/)]);
    demo.pass(65);
    await demo.reads({ gustMph: 40 });
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([
      expect.stringMatching(/: PUT IT OUT\. Observed gust 40 mph .*12:10 am/),
    ]);
  });
});

describe('an opt-out word', () => {
  it('ends all texts to that person, is no answer, and is told to the office', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.service.watching.send();
    expect(demo.heardBy(CREW).length).toBe(1);
    demo.pass(1);
    expect(await demo.inbound(CREW, 'STOP')).toBe('opt-out');
    await demo.minute();
    expect(demo.heardBy(OFFICE)).toEqual([expect.stringContaining('Ana')]);
    const { body } = await demo.api('GET', `${SITE}/messages`);
    const messages = body['messages'] as { kind: string; answers: unknown[] }[];
    expect(messages.filter(({ kind }) => kind === 'notice').flatMap(({ answers }) => answers)).toEqual([]);
    // The next in line is asked at once: nobody waits for somebody who is told nothing.
    expect(demo.heardBy(LEAD)).toEqual([expect.stringContaining('PUT IT OUT')]);
    for (let i = 0; i < 4; i += 1) {
      demo.pass(5);
      await demo.reads(TURNED);
      await demo.minute();
    }
    expect(demo.heardBy(CREW)).toEqual([]);
  });

  it('is taken back by no digit, though a digit answers what that person was told before', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.service.watching.send();
    expect(demo.heardBy(CREW).length).toBe(1);
    demo.pass(1);
    await demo.inbound(CREW, 'STOP');
    await demo.minute();
    // Who has seen the text and says that they see to it has answered it, whether or not they want another one.
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    demo.heardBy(LEAD);
    demo.pass(10);
    await demo.reads(TURNED);
    await demo.minute();
    expect(demo.heardBy(LEAD)).toEqual([]);
    // It gets worse: that was told to them by nobody, so that a digit of theirs answers the text before it and no other.
    demo.pass(5);
    await demo.reads({ ...TURNED, mph: 20 });
    await demo.minute();
    expect(demo.heardBy(LEAD).length).toBe(1);
    expect(demo.heardBy(CREW)).toEqual([]);
    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    await demo.minute();
    const { body } = await demo.api('GET', '/v1/notices?site=north-block');
    const notices = body['notices'] as { code: string; acknowledgedBy: string | null }[];
    expect(notices.filter(({ acknowledgedBy }) => acknowledgedBy === null)).not.toEqual([]);
    demo.pass(10);
    await demo.reads({ ...TURNED, mph: 20 });
    await demo.minute();
    await demo.service.watching.send();
    expect(demo.heardBy(OFFICE).at(-1)).toContain('NO ANSWER');
  });

  it('is told to the office each time, though the gateway gives its texts no names', async () => {
    const demo = await startForTest(TEN);
    const post = async (text: string) =>
      (await demo.api('POST', '/v1/inbound/text', { from: CREW, text })).body['taken'];
    expect(await post('STOP')).toBe('opt-out');
    // Sent again by the gateway: the same once more.
    expect(await post('STOP')).toBe('opt-out');
    demo.pass(60);
    expect(await post('START')).toBe('opt-in');
    demo.pass(60);
    expect(await post('STOP')).toBe('opt-out');
    await demo.service.watching.send();
    expect(demo.heardBy(OFFICE).map((text) => /wants no more|gets texts again/.exec(text)?.[0])).toEqual([
      'wants no more',
      'gets texts again',
      'wants no more',
    ]);
  });

  it('that comes while a text waits to be sent keeps that text back, and it has failed', async () => {
    const demo = await startBurning();
    demo.gateway.bad.push({ status: 503 });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    expect(demo.heardBy(CREW)).toEqual([]);
    await demo.inbound(CREW, 'STOP');
    demo.pass(2);
    await demo.service.watching.send();
    expect(demo.heardBy(CREW)).toEqual([]);
    const { body } = await demo.api('GET', `${SITE}/messages`);
    const deliveries = (body['messages'] as { kind: string; deliveries: Record<string, unknown>[] }[])
      .filter(({ kind }) => kind === 'notice')
      .flatMap((message) => message.deliveries)
      .filter((one) => one['contact'] === 'ana' && one['reason'] === 'opted-out');
    expect(deliveries.map((one) => one['outcome'])).toContain('failed');
  });

  it('is taken back by an opt-in of the same person only', async () => {
    const demo = await startBurning();
    await demo.inbound(CREW, 'STOP');
    expect(await demo.inbound(LEAD, 'START')).toBe('opt-in');
    await demo.reads(TURNED);
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([]);
    expect(await demo.inbound(CREW, 'START')).toBe('opt-in');
    demo.pass(5);
    await demo.reads({ ...TURNED, mph: 20 });
    await demo.minute();
    // What has come, and what was not told to them meanwhile and still stands.
    expect(demo.heardBy(CREW)).toEqual([
      expect.stringMatching(/: PUT IT OUT\. Observed wind 20 mph/),
      expect.stringMatching(/: Again: PUT IT OUT\. Smoke goes to county road/),
    ]);
  });
});

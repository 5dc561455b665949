// What happens where a way fails: the same text again, the next way, the next person. Answers of gateways: RFC 9110,
// sections 15.5 and 15.6, RFC 6585, section 4; published reports: alertmanager#2121 (429 taken for good), #3727 (a refusal
// given up silently), #2657 (sent again and again because an answer came late).

import { describe, expect, it, onTestFinished } from 'vitest';
import { type Gateway, startGateway } from './gateway.ts';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

interface TwoWays {
  readonly demo: WatchedDemo;
  /** The one after the first. */
  readonly second: Gateway;
}

/** The crew has two ways; `settings`: of the first. */
async function startTwoWays(settings = ''): Promise<TwoWays> {
  const second = await startGateway();
  onTestFinished(second.close);
  const other = `  other:\n    kind: http-sms\n    url: ${second.url}\n    allow: ["127.0.0.0/8"]\n    json: { id: "{id}", to: "{to}", text: "{text}" }\n`;
  const demo = await startBurning((yaml) =>
    yaml
      .replace('channels:\n', `$&${other}`)
      .replace('    reference: /ref\n', `$&${settings}`)
      .replace(
        `{ channel: text, to: "${CREW}" }`,
        `{ channel: text, to: "${CREW}" }, { channel: other, to: "${CREW}" }`,
      ),
  );
  return { demo, second };
}

describe('a way that fails', () => {
  it('for a moment is tried again under the same id, and by no other way', async () => {
    const { demo, second } = await startTwoWays();
    demo.gateway.bad.push({ status: 500 });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    expect([demo.heardBy(CREW).length, second.texts.length]).toEqual([0, 0]);
    demo.clock.nowMs += 5000;
    await demo.service.watching.send();
    expect([demo.heardBy(CREW).length, second.texts.length]).toEqual([1, 0]);
    expect(new Set(demo.gateway.asked.slice(-2).map(({ id }) => id)).size).toBe(1);
  });

  it('because too many came is left alone for as long as it says, and the text is not given up', async () => {
    const { demo, second } = await startTwoWays();
    demo.gateway.bad.push({ status: 429, headers: { 'retry-after': '14' } });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    const asked = demo.gateway.asked.length;
    demo.clock.nowMs += 13_000;
    await demo.service.watching.send();
    expect(demo.gateway.asked.length).toBe(asked);
    demo.clock.nowMs += 2000;
    await demo.service.watching.send();
    expect([demo.heardBy(CREW).length, second.texts.length]).toEqual([1, 0]);
  });

  it('that asks for a longer pause is passed over for a stop at once, and left alone once that is out', async () => {
    const { demo, second } = await startTwoWays();
    demo.gateway.bad.push({ status: 503, headers: { 'retry-after': '240' } });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    expect([demo.heardBy(CREW).length, second.texts.length]).toEqual([0, 1]);
    demo.clock.nowMs += 241_000;
    await demo.tells();
    // Nobody has taken it for a clock that was set back, and asked the next in line.
    expect([demo.heardBy(CREW).length, second.texts.length, demo.heardBy(LEAD).length]).toEqual([0, 1, 0]);
  });

  it('for good is left for the next way at once', async () => {
    const { demo, second } = await startTwoWays();
    demo.gateway.bad.push({ status: 403 });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    await demo.service.watching.send();
    expect(demo.heardBy(CREW)).toEqual([]);
    expect(second.texts.map(({ to }) => to)).toEqual([CREW]);
  });

  it('with a success that has an error in it is left for the next way at once', async () => {
    const { demo, second } = await startTwoWays('    success: { all: [{ at: /ref, exists: true }] }\n');
    demo.gateway.bad.push({ status: 200, body: { error: 'no credit' } });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    await demo.service.watching.send();
    expect(demo.heardBy(CREW)).toEqual([]);
    expect(second.texts.map(({ to }) => to)).toEqual([CREW]);
    expect(await outcomes(demo)).toEqual([
      ['text', 'failed'],
      ['other', 'sent'],
    ]);
  });

  it('without an answer may have sent it: that is said, the next way is taken too, and nothing goes out again and again', async () => {
    const { demo, second } = await startTwoWays('    wholeMs: 200\n');
    demo.gateway.bad.push({ never: true, taken: true });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    await demo.service.watching.send();
    expect([demo.heardBy(CREW).length, second.texts.length]).toEqual([1, 1]);
    expect(await outcomes(demo)).toEqual([
      ['text', 'uncertain'],
      ['other', 'sent'],
    ]);
    demo.pass(2);
    await demo.minute();
    expect([demo.heardBy(CREW).length, second.texts.length]).toEqual([0, 1]);
    // Whichever of the two arrived: it is answered.
    expect(await demo.inbound(CREW, '1')).toBe('answer');
  });

  it('as all of a person do asks the next person at once, long before the deadline', async () => {
    const { demo, second } = await startTwoWays();
    demo.gateway.bad.push({ status: 403 });
    second.bad.push({ status: 400 });
    await demo.reads(TURNED);
    for (let i = 0; i < 3; i += 1) await demo.service.watching.send();
    expect([demo.heardBy(CREW), second.texts]).toEqual([[], []]);
    expect(demo.heardBy(LEAD)).toEqual([expect.stringContaining('PUT IT OUT')]);
    // Whom it did not reach the office is told once, whoever answers.
    await demo.service.watching.send();
    expect(demo.heardBy(OFFICE)).toEqual([expect.stringMatching(/SEE TO IT\. A warning did not reach Ana/)]);
    demo.pass(2);
    expect(await demo.inbound(LEAD, '1')).toBe('answer');
    await demo.minute();
    expect(demo.heardBy(OFFICE)).toEqual([]);
  });

  it('for everybody leaves what stands standing, and tells it at the next repeat if it is mended by then', async () => {
    const demo = await startBurning();
    const broken = Array<{ status: number }>(50).fill({ status: 403 });
    demo.gateway.bad.push(...broken);
    const before = demo.gateway.asked.length;
    await demo.reads(TURNED);
    for (let i = 0; i < 4; i += 1) await demo.service.watching.send();
    // The crew, the next of it, and the office as the last to be asked; it would also be told whom it did not reach.
    const asked = demo.gateway.asked.slice(before).map(({ to }) => to);
    expect([asked[0], new Set(asked)]).toEqual([CREW, new Set([CREW, LEAD, OFFICE])]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('stop');
    expect((await outcomes(demo)).every(([, outcome]) => outcome === 'failed')).toBe(true);
    // The gateway is mended: the same is told at the next repeat.
    demo.gateway.bad.length = 0;
    demo.pass(5);
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([expect.stringContaining('PUT IT OUT')]);
    expect(await demo.inbound(CREW, '1')).toBe('no-open-message');
    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
  });
});

/** Channel and outcome of each delivery of the newest notice, in the order in which they became due. */
async function outcomes(demo: WatchedDemo): Promise<(readonly [string, string])[]> {
  const { body } = await demo.api('GET', `${SITE}/messages`);
  const messages = body['messages'] as { kind: string; deliveries: Record<string, string>[] }[];
  const newest = messages.find(({ kind }) => kind === 'notice');
  return (newest?.deliveries ?? []).map((one) => [String(one['channel']), String(one['outcome'])] as const);
}

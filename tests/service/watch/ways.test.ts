// What happens where a way fails: the same text again, the next way, the next person. Answers of gateways: RFC 9110,
// sections 15.5 and 15.6, RFC 6585, section 4; published reports: alertmanager#2121 (429 taken for good), #3727 (a refusal
// given up silently), #2657 (sent again and again because an answer came late).

import { describe, expect, it, onTestFinished } from 'vitest';
import { type Gateway, startGateway } from './gateway.ts';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, type WatchedDemo } from './watched-demo.ts';

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

  it('for good is left for the next way at once', async () => {
    const { demo, second } = await startTwoWays();
    demo.gateway.bad.push({ status: 403 });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    await demo.service.watching.send();
    expect(demo.heardBy(CREW)).toEqual([]);
    expect(second.texts.map(({ to }) => to)).toEqual([CREW]);
  });
});

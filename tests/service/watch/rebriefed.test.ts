// The crew acknowledges another wind: from then on the drift is measured from that, over the real API, store and gateway.

import { describe, expect, it } from 'vitest';
import { startBurning } from './start-burning.ts';
import { CREW, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

/** The wind goes slowly from one direction to another, five minutes and so many degrees a step; gives what the crew is told. */
async function blows(demo: WatchedDemo, directions: readonly number[]): Promise<string[]> {
  const heard: string[] = [];
  for (const fromDeg of directions) {
    demo.pass(5);
    await demo.reads({ fromDeg });
    await demo.minute();
    heard.push(...demo.heardBy(CREW));
  }
  return heard;
}

const SLOWLY_ROUND = [205, 198, 191, 184, 177, 170, 163, 156, 149, 142, 137, 135, 134];

interface Burn {
  readonly briefedFrom: number;
  readonly briefings: readonly { by: string; windFrom: number; message: string }[];
}
const burnOf = async (demo: WatchedDemo) => (await demo.api('GET', `${SITE}/now`)).body['burn'] as Burn;
const codesOf = async (demo: WatchedDemo) =>
  ((await demo.api('GET', `${SITE}/now`)).body['conditions'] as { code: string; truth: string }[])
    .filter(({ truth }) => truth === 'true')
    .map(({ code }) => code);

describe('a wind that drifts', () => {
  it('is told once; who of the crew acknowledges it goes by it from then on, and is told right', async () => {
    const demo = await startBurning();
    const forecast = await burnOf(demo);
    expect(forecast.briefings).toEqual([]);
    const told = await blows(demo, SLOWLY_ROUND);
    expect(told[0]).toMatch(/NO WOOD\. Observed wind southeast 8 mph .*briefed south\./);
    expect(await codesOf(demo)).toContain('wind-drifted');

    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    await demo.tells();
    const burn = await burnOf(demo);
    expect(burn.briefings).toEqual([
      expect.objectContaining({ by: 'ana', windFrom: expect.any(Number), message: expect.any(String) }),
    ]);
    expect(burn.briefedFrom).toBe(burn.briefings[0]?.windFrom);
    expect(burn.briefedFrom).toBeGreaterThan(130);
    expect(burn.briefedFrom).toBeLessThan(forecast.briefedFrom - 55);
    expect(await codesOf(demo)).not.toContain('wind-drifted');
    // Not as if the wind had come back: it is they who know of it.
    expect(demo.heardBy(CREW)).toEqual([
      expect.stringMatching(
        /: NOTE\. Over (at )?11:\d\d am: wind drift; you know wind southeast\. Wood only by plan/,
      ),
    ]);

    // It stays there, and nothing more is told.
    expect(await blows(demo, [136, 133, 137, 134])).toEqual([]);
    // Back to where it was forecast is a drift for those who go by another.
    const back = await blows(demo, [...SLOWLY_ROUND].reverse());
    expect(back).toContainEqual(
      expect.stringMatching(/NO WOOD\. Observed wind south.* mast\. Smoke goes north/),
    );
  });

  it('that only the office acknowledges is still a drift for the crew', async () => {
    const demo = await startBurning();
    await blows(demo, SLOWLY_ROUND);
    // Nobody of the crew answers until the office is asked.
    for (let i = 0; i < 5; i += 1) await blows(demo, [135 + i]);
    expect(demo.heardBy(OFFICE).length).toBeGreaterThan(0);
    demo.pass(1);
    expect(await demo.inbound(OFFICE, '1')).toBe('answer');
    expect((await burnOf(demo)).briefings).toEqual([]);
    expect(await codesOf(demo)).toContain('wind-drifted');
  });
});

describe('a wind that turns', () => {
  /** Turned at once, and it stays there; the answer comes from one contact, over the API. */
  async function answeredBy(contact: string): Promise<readonly string[]> {
    const demo = await startBurning();
    await blows(demo, [210, 210, 210, 210]);
    await blows(demo, [130, 130]);
    const { body } = await demo.api('GET', `${SITE}/messages`);
    const told = (body['messages'] as { id: string; needsAnswer: boolean }[]).find((m) => m.needsAnswer);
    expect(await codesOf(demo)).toContain('wind-shifted');
    const { status } = await demo.api('POST', `/v1/messages/${told?.id}/answers`, {
      answer: 'got-it',
      by: contact,
    });
    expect(status).toBe(200);
    await blows(demo, [130, 130, 130, 130, 130, 130, 130, 130, 130, 130]);
    return codesOf(demo);
  }

  it('is no turn any more for the crew that acknowledges it, and still one where the office alone has', async () => {
    expect(await answeredBy('office')).toContain('wind-shifted');
    expect(await answeredBy('ana')).not.toContain('wind-shifted');
  });
});

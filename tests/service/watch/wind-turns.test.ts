// Mid-shift the wind turns: from a posted reading to a text, its escalation and its answer, through the real API, the real
// store and a gateway on loopback.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CREW, LEAD, OFFICE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

/** 10:00 at the north block, in its go. */
const TEN = '2026-04-14T17:00:00Z';

let demo: WatchedDemo;
beforeAll(async () => {
  demo = await startWatchedDemo(TEN);
});
afterAll(() => demo.close());

const reading = (atMs: number, fromDeg: number, mph = 8) => ({
  station: 'mast',
  time: new Date(atMs).toISOString(),
  windSpeed: `${mph} mph`,
  windDirection: fromDeg,
  windGust: `${mph + 3} mph`,
  relativeHumidity: '45 %',
});

const post = async (fromDeg: number, mph?: number) => {
  const { status, body } = await demo.api(
    'POST',
    '/v1/sites/north-block/observations',
    reading(demo.clock.nowMs, fromDeg, mph),
  );
  expect(status).toBe(200);
  expect((body['results'] as { outcome: string }[])[0]?.outcome).toBe('kept');
};

describe('a burn on which the wind turns', () => {
  it('is lit: the crew hears what the forecast has in store, the office nothing', async () => {
    await post(210);
    const lit = await demo.api('POST', '/v1/sites/north-block/burns', {
      id: 'tap-lit-0001',
      tap: 'lit',
      by: 'Ana',
    });
    expect(lit.status).toBe(201);
    expect(lit.body['state']).toBe('lit');
    const again = await demo.api('POST', '/v1/sites/north-block/burns', {
      id: 'tap-lit-0001',
      tap: 'lit',
      by: 'Ana',
    });
    expect([again.status, again.body['id']]).toEqual([200, lit.body['id']]);
    await demo.service.watching.send();
    // The turn that the forecast has for the afternoon is news for the crew, and asks for no answer.
    expect(demo.gateway.texts.map(({ to }) => to)).toEqual([CREW, LEAD]);
    for (const { text } of demo.gateway.texts) expect(text).toMatch(/NOTE\. Forecast wind turns .* 3:00 pm/);
    demo.gateway.texts.length = 0;
  });

  it('steady wind says nothing', async () => {
    const { body } = await demo.api('GET', '/v1/sites/north-block/now');
    expect(body['burn']).not.toBeNull();
    for (let i = 0; i < 12; i += 1) {
      demo.pass(5);
      await post(210);
    }
    await demo.minute();
    expect(demo.gateway.texts).toEqual([]);
  });

  it('the turn is told to the crew in one text, and to nobody else', async () => {
    // Smoke of a wind from 290 goes towards 110: onto the county road.
    demo.pass(5);
    await post(290);
    await demo.service.watching.send();
    expect(demo.gateway.texts.map(({ to }) => to)).toEqual([CREW]);
    const [text] = demo.gateway.texts;
    expect(text?.text).toMatch(
      /^DEMO North.*: PUT IT OUT\. Smoke goes to county road: observed wind west 8 mph/,
    );
    expect(text?.text.length).toBeLessThanOrEqual(160);
    const { body } = await demo.api('GET', '/v1/sites/north-block/now');
    expect(body['verdict']).not.toBe('go');
  });

  it('nobody answers: the crew is told again, then the next, then the office', async () => {
    for (let i = 0; i < 3; i += 1) {
      demo.pass(5);
      await post(285);
      await demo.minute();
    }
    const told = demo.gateway.texts.map(({ to }) => to);
    expect(told.filter((to) => to === CREW).length).toBeGreaterThan(1);
    expect(told).toContain(LEAD);
    demo.pass(10);
    await post(285);
    await demo.minute();
    expect(demo.gateway.texts.map(({ to }) => to)).toContain(OFFICE);
  });

  it('an answer ends the asking, and not the condition', async () => {
    const before = demo.gateway.texts.length;
    const forged = await demo.api('POST', '/v1/inbound/text', { id: 'i1', from: '+15550199999', text: '1' });
    expect(forged.body).toEqual({ taken: 'no-open-message' });
    const answered = await demo.api('POST', '/v1/inbound/text', { id: 'i2', from: CREW, text: '1' });
    expect(answered.body).toEqual({ taken: 'answer' });
    demo.pass(15);
    await post(285);
    await demo.minute();
    expect(demo.gateway.texts.length).toBe(before);
    const { body } = await demo.api('GET', '/v1/notices?site=north-block');
    const notices = body['notices'] as { phase: string; acknowledgedBy: string | null }[];
    expect(notices.some(({ phase }) => phase === 'raised')).toBe(true);
  });

  it('covered: the watch ends without another text', async () => {
    const { body } = await demo.api('GET', '/v1/sites/north-block/now');
    const burn = (body['burn'] as { id: string }).id;
    const tapped = await demo.api('POST', `/v1/sites/north-block/burns/${burn}/taps`, {
      tap: 'covered',
      by: 'Ana',
    });
    expect([tapped.status, tapped.body['closedAt']]).toEqual([201, expect.any(String)]);
    const before = demo.gateway.texts.length;
    await demo.minute();
    expect(demo.gateway.texts.length).toBe(before);
  });
});

// Requests to a host that is down: few are sent, the others fail at once, and the host is found again when it is back.

import { describe, expect, it } from 'vitest';
import { client, faultOf, problem, START_MS, serving } from './http-harness.ts';
import { reply, serve } from './loopback.ts';

const SECOND = 1_000;
const MINUTE = 60 * SECOND;

describe('requests', () => {
  it('to a host where nobody listens are sent no more after the fifth, and fail at once', async () => {
    const server = await serve(() => undefined);
    await server.close();
    const { http, clock } = client();
    await faultOf(http.get(`${server.origin}/1`));
    await faultOf(http.get(`${server.origin}/2`));
    const sleptMs = clock.slept.length;
    const fault = await faultOf(http.get(`${server.origin}/3`));
    expect(fault.facts['againAtMs']).toBe(clock.nowMs() + 30 * SECOND);
    expect(clock.slept).toHaveLength(sleptMs);
    expect(http.lines()).toMatchObject([{ leftAloneSinceMs: START_MS }]);
  });

  it('that failed themselves tell of their own failure, and are not tried again', async () => {
    const server = await serving((response) => reply(response, 500, problem('UnexpectedProblem', 500)));
    const { http, clock } = client();
    const first = await faultOf(http.get(`${server.origin}/1`));
    expect(first.facts['againAtMs']).toBeUndefined();
    const fault = await faultOf(http.get(`${server.origin}/2`));
    expect(fault.facts).toMatchObject({ status: 500, againAtMs: clock.nowMs() + 30 * SECOND });
    expect(server.seen).toHaveLength(5);
  });

  it('that wait for the pace are not sent once the host is found down', async () => {
    const server = await serving((response) => reply(response, 502, ''));
    const { http } = client({ pace: { burst: 1, everyMs: SECOND } });
    const faults = await Promise.all(
      Array.from({ length: 40 }, (_, i) => faultOf(http.get(`${server.origin}/${i}`))),
    );
    // Two run at once: one may be under way when the fifth has failed.
    expect(server.seen.length).toBeLessThanOrEqual(6);
    expect(faults.filter(({ facts }) => facts['againAtMs'] !== undefined).length).toBeGreaterThanOrEqual(34);
  });

  it.each([
    ['404', 404, 'InvalidPoint'],
    ['400', 400, 'BadRequest'],
    ['503 for a grid that has expired (api#29)', 503, 'ForecastGridExpired'],
  ])('answered with %s speak for a host that is well', async (_, status, name) => {
    const server = await serving((response) => reply(response, status, problem(name, status)));
    const { http } = client();
    for (let i = 0; i < 12; i += 1) await faultOf(http.get(`${server.origin}/${i}`));
    expect(server.seen).toHaveLength(12);
    expect(http.lines()).toMatchObject([{ leftAloneSinceMs: null }]);
  });

  it.each([
    ['a page of HTML', 200, 'text/html'],
    ['502', 502, 'text/html'],
    ['500', 500, 'application/problem+json'],
  ])('answered with %s speak against it', async (_, status, type) => {
    const server = await serving((response) => reply(response, status, '{}', { 'content-type': type }));
    const { http } = client();
    for (let i = 0; i < 12; i += 1) await faultOf(http.get(`${server.origin}/${i}`));
    expect(server.seen).toHaveLength(5);
  });

  it('find a host again that has come back, within ten minutes and one request', async () => {
    let isDown = true;
    const server = await serving((response) =>
      isDown ? reply(response, 500, problem('UnexpectedProblem', 500)) : reply(response, 200, {}),
    );
    const { http, clock } = client();
    for (let hour = 0; hour < 3 * 60; hour += 1) {
      await faultOf(http.get(`${server.origin}/${hour % 7}`));
      clock.advance(MINUTE);
    }
    // Five to find out, then in each cooling time one that fails and one more of another address.
    expect(server.seen.length).toBeLessThan(60);
    isDown = false;
    const backMs = clock.nowMs();
    const before = server.seen.length;
    for (;;) {
      const got = await http.get(`${server.origin}/1`).catch(() => null);
      if (got) break;
      clock.advance(10 * SECOND);
    }
    expect(clock.nowMs() - backMs).toBeLessThanOrEqual(10 * MINUTE);
    expect(server.seen).toHaveLength(before + 1);
  });

  it('for which no time was left are no word against the host', async () => {
    const server = await serving((response) => reply(response, 200, {}));
    const { http, clock } = client({ pace: { burst: 1, everyMs: MINUTE } });
    const late = () => faultOf(http.get(server.origin, { deadlineMs: clock.nowMs() + SECOND }));
    await http.get(server.origin);
    for (let i = 0; i < 8; i += 1) expect((await late()).message).toContain('did not come in time');
    expect(server.seen).toHaveLength(1);
    expect(http.lines()).toMatchObject([{ leftAloneSinceMs: null }]);
  });
});

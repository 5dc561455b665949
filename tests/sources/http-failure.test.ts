// The polite GET against a real server on this machine: what it tries again, and what it does not.

import { describe, expect, it } from 'vitest';
import { client, faultOf, problem, START_MS, serving, textOf } from './http-harness.ts';
import { GEO_JSON, type Handler, reply, serve } from './loopback.ts';

describe('a failure that passes', () => {
  it('is tried again after 2, 8 and 20 s, then given up', async () => {
    const server = await serving((response) => reply(response, 500, problem('UnexpectedProblem', 500)));
    const { http, clock, log } = client();
    const fault = await faultOf(http.get(`${server.origin}/gridpoints/XXX/1,2`));
    expect(log.lines.map(({ message }) => message.replace(/^.*; /, ''))).toEqual([
      'trying again in 2 s',
      'trying again in 8 s',
      'trying again in 20 s',
      'given up after 4 tries',
    ]);
    expect(clock.slept).toEqual([2_000, 8_000, 20_000]);
    expect(server.seen).toHaveLength(4);
    expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true });
  });

  it.each([
    [0, [1_000, 4_000, 10_000]],
    [0.999999, [3_000, 12_000, 30_000]],
  ])('waits half as long or half as long again, by chance (%d)', async (chance, waits) => {
    const server = await serving((response) => reply(response, 502, ''));
    const { http, clock } = client({ random: () => chance });
    await faultOf(http.get(server.origin));
    expect(clock.slept).toEqual(waits);
  });

  it.each([[500], [502], [503], [504], [408]])('of %d is over with the next answer', async (status) => {
    const server = await serving((response, _, count) =>
      count === 1
        ? reply(response, status, problem('UnexpectedProblem', status))
        : reply(response, 200, { a: 1 }),
    );
    expect(textOf(await client().http.get(server.origin))).toBe('{"a":1}');
  });

  it('as a dropped connection is tried again', async () => {
    const server = await serving((response, _, count) => {
      if (count === 1) response.socket?.destroy();
      else reply(response, 200, { a: 1 });
    });
    const { http, log } = client();
    expect(textOf(await http.get(server.origin))).toBe('{"a":1}');
    expect(log.lines).toHaveLength(1);
  });

  it('as a body cut short is tried again', async () => {
    const server = await serving((response, _, count) => {
      if (count > 1) return reply(response, 200, { a: 1 });
      response.writeHead(200, { ...GEO_JSON, 'content-length': '100' });
      response.write('{"a":');
      response.socket?.destroySoon();
    });
    expect(textOf(await client().http.get(server.origin))).toBe('{"a":1}');
  });

  it('where nobody listens is source_unreachable', async () => {
    const server = await serve(() => undefined);
    await server.close();
    const fault = await faultOf(client().http.get(server.origin));
    expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true, facts: { status: null } });
  });

  it.each([
    ['in seconds', '30', 30_000],
    ['as a date', 'Mon, 02 Mar 2026 18:20:45 GMT', 45_000],
    ['shorter than ours', '1', 2_000],
    ['in the past', 'Mon, 02 Mar 2026 18:00:00 GMT', 2_000],
    ['as nonsense', 'soon', 2_000],
  ])('waits as the server asks, %s', async (_, retryAfter, waited) => {
    const server = await serving((response, __, count) =>
      count === 1
        ? reply(response, 503, problem('UnavailableWebService', 503), { 'retry-after': retryAfter })
        : reply(response, 200, {}),
    );
    const { http, clock } = client();
    await http.get(server.origin);
    expect(clock.slept).toEqual([waited]);
  });

  it('is given up at once where the wait would pass the deadline', async () => {
    const server = await serving((response) =>
      reply(response, 503, problem('UnavailableWebService', 503), { 'retry-after': '3600' }),
    );
    const { http, clock } = client();
    const fault = await faultOf(http.get(server.origin, { deadlineMs: START_MS + 60_000 }));
    expect(clock.slept).toEqual([]);
    expect(fault.facts).toMatchObject({ status: 503, retryAfterMs: 3_600_000 });
  });

  it('is tried no more often than the deadline of the pull allows', async () => {
    const server = await serving((response) => reply(response, 500, ''));
    const { http, clock } = client({ pullDeadlineMs: 5_000 });
    await faultOf(http.get(server.origin));
    expect(clock.slept).toEqual([2_000]);
  });
});

describe('a failure that lasts', () => {
  it.each([['ForecastGridExpired'], ['ForecastGridInvalid']])(
    '503 %s is not tried again at once (api#29, wg#1670)',
    async (name) => {
      const server = await serving((response) => reply(response, 503, problem(name, 503)));
      const { http, clock } = client();
      const fault = await faultOf(http.get(`${server.origin}/gridpoints/XXX/1,2`));
      expect(clock.slept).toEqual([]);
      expect(fault).toMatchObject({ code: 'source_unreachable', retryable: true, facts: { problem: name } });
    },
  );

  it.each([['url'], ['urn']] as const)(
    'carries its problem, named by %s, and its tracing numbers',
    async (form) => {
      const server = await serving((response) =>
        reply(response, 404, problem('InvalidPoint', 404, form), {
          'x-server-id': 'vm-1',
          'x-request-id': 'r-1',
        }),
      );
      const { http } = client();
      const fault = await faultOf(http.get(`${server.origin}/points/4,5?key=secret&point=4,5`));
      expect(fault).toMatchObject({ code: 'source_refused', retryable: false });
      expect(fault.facts).toMatchObject({
        status: 404,
        problem: 'InvalidPoint',
        detail: 'a detail',
        correlationId: 'abc123',
        serverId: 'vm-1',
        requestId: 'r-1',
      });
      expect(JSON.stringify(fault.facts)).not.toContain('secret');
      expect(fault.facts['url']).toContain('point=4');
    },
  );

  it('is told with no problem where the body is none', async () => {
    const server = await serving((response) => reply(response, 400, '{"type":'));
    expect((await faultOf(client().http.get(server.origin))).facts).toMatchObject({
      status: 400,
      problem: null,
    });
  });
});

describe('a refusal by the network in front', () => {
  const html =
    '<HTML><HEAD><TITLE>Access Denied</TITLE></HEAD>Reference&#32;&#35;18&#46;abc123&#46;def</HTML>';
  const blocked: Handler = (response) => reply(response, 403, html, { 'content-type': 'text/html' });

  it('of 403 in HTML waits 10 s, 60 s, then gives up and says the reference number (api#163)', async () => {
    const server = await serving(blocked);
    const { http, clock, log } = client();
    const fault = await faultOf(http.get(server.origin, { deadlineMs: START_MS + 120_000 }));
    expect(clock.slept).toEqual([10_000, 60_000]);
    expect(server.seen).toHaveLength(3);
    expect(fault).toMatchObject({ code: 'source_refused', retryable: true });
    expect(fault.facts).toMatchObject({ status: 403, blockReference: '18.abc123.def' });
    expect(log.lines.every(({ level }) => level === 'warn')).toBe(true);
  });

  it('leaves the host alone for every other request, too', async () => {
    const server = await serving((response, request) =>
      request.url === '/a' ? blocked(response, request, 1) : reply(response, 200, {}),
    );
    const { http, clock } = client();
    await faultOf(http.get(`${server.origin}/a`, { deadlineMs: START_MS + 5_000 }));
    const fault = await faultOf(http.get(`${server.origin}/b`, { deadlineMs: START_MS + 5_000 }));
    expect(fault).toMatchObject({ code: 'source_refused', retryable: true });
    expect(server.seen).toHaveLength(1);
    await http.get(`${server.origin}/b`);
    expect(clock.slept).toEqual([10_000]);
  });

  it('of 429 waits as long as it is told, and is forgotten with the next answer', async () => {
    const server = await serving((response, _, count) =>
      count === 2
        ? reply(response, 200, {})
        : reply(response, 429, 'slow down', { 'content-type': 'text/html', 'retry-after': '25' }),
    );
    const { http, clock } = client();
    await http.get(server.origin);
    expect(clock.slept).toEqual([25_000]);
    await faultOf(http.get(server.origin, { deadlineMs: clock.nowMs() + 30_000 }));
    expect(clock.slept).toEqual([25_000, 25_000]);
  });
});

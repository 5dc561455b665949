// The demo's north block with an instrument, a crew, an office and a text gateway.

import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { type Others, type Running, startRunning } from '../running.ts';
import { type Gateway, startGateway } from './gateway.ts';

export const CREW = '+15550100001';
export const LEAD = '+15550100002';
export const OFFICE = '+15550100003';

const more = (gatewayUrl: string): string => `
channels:
  text:
    kind: http-sms
    url: ${gatewayUrl}
    allow: ["127.0.0.0/8"]
    json: { id: "{id}", to: "{to}", text: "{text}" }
    reference: /ref
contacts:
  - { id: ana, name: Ana, role: crew, sites: [north-block], ways: [{ channel: text, to: "${CREW}" }] }
  - { id: ben, name: Ben, role: crew, sites: [north-block], step: 1, ways: [{ channel: text, to: "${LEAD}" }] }
  - { id: office, name: Office, role: office, step: 2, ways: [{ channel: text, to: "${OFFICE}" }] }
`;

/** Without the demo's other sites, and its own channels and contacts, which stand after them. */
const northAlone = (yaml: string): string => {
  const end = yaml.indexOf('\n  - id: creek-block');
  if (end < 0) throw new Error('the demonstration has other sites than it had');
  return `${yaml.slice(0, end)}\n`;
};

export interface WatchedDemo extends Running {
  readonly gateway: Gateway;
  /** Moves the clock on. */
  pass(minutes: number): void;
  /** Asks the API on the spot. */
  api(method: string, url: string, body?: object): Promise<{ status: number; body: Record<string, unknown> }>;
  /** One minute of the clock, with all that it hands over and leaves to be sent. */
  minute(): Promise<void>;
  /** What is to be asked again, or of the next, and everything that is to be sent; nobody looks at anything else. */
  tells(): Promise<void>;
  /** Posts a reading of the mast and expects it to be kept. */
  reads(reading?: Partial<Reading>): Promise<void>;
  /** Opens a burn now; gives its id. */
  lights(): Promise<string>;
  /** Texts to a number since the last asking; asked of several numbers, each has its own count. */
  heardBy(number: string): string[];
  /** A text that comes in from a number. */
  inbound(from: string, text: string, id?: string): Promise<unknown>;
  /** Other limits for all sites that go by those of the north block. */
  limits(limits: readonly object[]): Promise<void>;
  /** Messages of the north block whose transitions have that code, of all kinds told. */
  told(code: string): Promise<{ readonly kinds: readonly string[]; readonly atMs: number }[]>;
}

export interface Reading {
  readonly fromDeg: number;
  readonly mph: number;
  readonly gustMph: number;
}

export const SITE = '/v1/sites/north-block';

/** The demo's north block with an instrument, a gateway and contacts. */
export const watchedYaml = (yaml: string, gatewayUrl: string): string =>
  northAlone(yaml).replace(
    '      - { id: airfield, kind: nws, within: 5 mi, most: 1, period: 5 min }',
    '      - { id: mast, kind: posted, by: instrument, distance: 0 m, period: 5 min, height: 10 m, averaging: 2 min, reference: "true" }',
  ) + more(gatewayUrl);

export async function startWatchedDemo(
  nowText: string,
  change = (yaml: string) => yaml,
  { gateway: given, ...others }: Others & { readonly gateway?: Gateway } = {},
): Promise<WatchedDemo> {
  const gateway = given ?? (await startGateway());
  const running = await startRunning(nowText, (yaml) => change(watchedYaml(yaml, gateway.url)), true, others);
  const { service, clock, store } = running;
  const api: WatchedDemo['api'] = async (method, url, body) => {
    const response = await service.app.inject({
      method: method as 'GET',
      url,
      ...(body ? { payload: body } : {}),
    });
    const text = response.body;
    return { status: response.statusCode, body: text.startsWith('{') ? JSON.parse(text) : { text } };
  };
  const tells = async (): Promise<void> => {
    await service.watching.escalate();
    await service.watching.send();
  };
  const seen = new Map<string, number>();
  return {
    ...running,
    gateway,
    api,
    pass(minutes) {
      clock.nowMs += minutes * 60_000;
    },
    async minute() {
      await service.keeper.minute();
      await service.keeper.idle();
      await tells();
    },
    tells,
    async reads({ fromDeg = 210, mph = 8, gustMph = mph + 3 } = {}) {
      const { status, body } = await api('POST', `${SITE}/observations`, {
        station: 'mast',
        time: new Date(clock.nowMs).toISOString(),
        windSpeed: `${mph} mph`,
        windDirection: fromDeg,
        windGust: `${gustMph} mph`,
        relativeHumidity: '45 %',
      });
      expect([status, (body['results'] as { outcome: string }[])[0]?.outcome]).toEqual([200, 'kept']);
    },
    async lights() {
      const { status, body } = await api('POST', `${SITE}/burns`, { tap: 'lit', by: 'Ana' });
      expect([status, body['state']]).toEqual([201, 'lit']);
      return String(body['id']);
    },
    heardBy(number) {
      const all = gateway.texts.filter(({ to }) => to === number).map(({ text }) => text);
      const fresh = all.slice(seen.get(number) ?? 0);
      seen.set(number, all.length);
      return fresh;
    },
    async inbound(from, text, id = randomUUID()) {
      const { status, body } = await api('POST', '/v1/inbound/text', { id, from, text });
      expect(status).toBe(200);
      return body['taken'];
    },
    async limits(limits) {
      const url = '/v1/limit-sets/valley';
      const before = await service.app.inject({ url });
      const headers = { 'if-match': String(before.headers['etag']) };
      const { statusCode } = await service.app.inject({ method: 'PUT', url, headers, payload: [...limits] });
      expect(statusCode).toBe(200);
    },
    async told(code) {
      const threads = await store.watch.threads('own/north-block', 0, clock.nowMs + 60_000, 1000);
      return threads.reverse().flatMap(({ message }) => {
        const kinds = message.transitions
          .filter((t) => t.condition.code === code && !t.inhibited)
          .map(({ kind }) => kind);
        return kinds.length === 0 ? [] : [{ kinds, atMs: message.atMs }];
      });
    },
    async close() {
      await running.close();
      if (given === undefined) await gateway.close();
    },
  };
}

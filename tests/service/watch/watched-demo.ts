// The demo's sites with a crew, an office, a text gateway and an instrument at the north block.

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

/** Without the demo's own channels and contacts, which stand at its end. */
const withoutOwn = (yaml: string): string => {
  const end = yaml.indexOf('\nchannels:');
  return end < 0 ? yaml : yaml.slice(0, end);
};

export interface WatchedDemo extends Running {
  readonly gateway: Gateway;
  /** Moves the clock on. */
  pass(minutes: number): void;
  /** Asks the API on the spot. */
  api(method: string, url: string, body?: object): Promise<{ status: number; body: Record<string, unknown> }>;
  /** A minute's turn, and everything that it leaves to be sent. */
  minute(): Promise<void>;
}

/** The demo's configuration with an instrument at each site, a gateway and contacts. */
export const watchedYaml = (yaml: string, gatewayUrl: string): string =>
  withoutOwn(yaml).replaceAll(
    '      - { id: airfield, kind: nws, within: 5 mi, most: 1, period: 5 min }',
    '      - { id: mast, kind: posted, by: instrument, distance: 0 m, period: 5 min, height: 10 m, averaging: 2 min, reference: "true" }',
  ) + more(gatewayUrl);

export async function startWatchedDemo(
  nowText: string,
  change = (yaml: string) => yaml,
  others: Others = {},
): Promise<WatchedDemo> {
  const gateway = await startGateway();
  const running = await startRunning(nowText, (yaml) => change(watchedYaml(yaml, gateway.url)), true, others);
  const { service, clock } = running;
  return {
    ...running,
    gateway,
    pass(minutes) {
      clock.nowMs += minutes * 60_000;
    },
    async api(method, url, body) {
      const response = await service.app.inject({
        method: method as 'GET',
        url,
        ...(body ? { payload: body } : {}),
      });
      const text = response.body;
      return { status: response.statusCode, body: text.startsWith('{') ? JSON.parse(text) : { text } };
    },
    async minute() {
      await service.watching.turns.watch(new AbortController().signal);
      await service.watching.escalate();
      await service.watching.send();
    },
    async close() {
      await running.close();
      await gateway.close();
    },
  };
}

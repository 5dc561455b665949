// Clients that ask one of two addresses without a rest, over connections that are kept alive, and go to the other one where
// a connection is refused: as people and balancers do while processes are started anew.

import { Agent, get } from 'node:http';
import { setTimeout } from 'node:timers/promises';
import type { Told } from './watch-answers.ts';

const DAY_MS = 86_400_000;

export interface Answered extends Told {
  readonly address: string;
}

export interface Clients {
  readonly told: readonly Answered[];
  /** What no client should meet, in words. */
  readonly failures: readonly string[];
  /** Connections refused, each asked for again at the other address. */
  refused(): number;
  /** 503s that say when to ask again. */
  later(): number;
  stop(): Promise<void>;
}

/** Half of `count` prefer the one address, half the other; both may change while they ask. */
export function startClients(addresses: [string, string], site: string, count: number): Clients {
  const told: Answered[] = [];
  const failures: string[] = [];
  let refused = 0;
  let later = 0;
  let isOver = false;
  const at = (days: number): string => new Date(Date.now() + days * DAY_MS).toISOString().slice(0, 19);
  // Some of the next days has a window, be they holidays or not.
  const path = `/v1/sites/${site}/windows?from=${at(0)}Z&to=${at(4)}Z`;

  async function once(agent: Agent, preferred: 0 | 1): Promise<void> {
    for (const address of [addresses[preferred], addresses[1 - preferred]]) {
      const askedMs = Date.now();
      const got = await ask(agent, `${address}${path}`);
      if (got === 'refused') {
        refused += 1;
        continue;
      }
      if (typeof got === 'string') failures.push(`${got} from ${address}`);
      else if (got.status === 503 && got.retryAfter !== undefined) later += 1;
      else if (got.status !== 200) failures.push(`${got.status} ${got.body.code} from ${address}`);
      else told.push({ ...asTold(site, askedMs, got.body), address: address ?? '' });
      return;
    }
    failures.push('refused by both');
  }
  const clients = Array.from({ length: count }, async (_, i) => {
    const agent = new Agent({ keepAlive: true, maxSockets: 1 });
    while (!isOver) {
      await once(agent, i % 2 === 0 ? 0 : 1);
      await setTimeout(20);
    }
    agent.destroy();
  });
  return {
    ...{ told, failures },
    refused: () => refused,
    later: () => later,
    async stop() {
      isOver = true;
      await Promise.all(clients);
    },
  };
}

interface Got {
  readonly status: number;
  readonly retryAfter: string | undefined;
  readonly body: {
    readonly code?: string;
    readonly windows?: readonly { readonly verdict: string }[];
    readonly stale?: boolean;
    readonly madeFrom?: { readonly document: string } | null;
  };
}

/** `refused`: nobody took the connection, so that nobody has begun with an answer. Any other fault by its code. */
function ask(agent: Agent, url: string): Promise<Got | string> {
  return new Promise((resolve) => {
    const request = get(url, { agent, timeout: 10_000 }, async (response) => {
      try {
        let text = '';
        for await (const part of response.setEncoding('utf8')) text += part;
        const { statusCode: status = 0, headers } = response;
        resolve({ status, retryAfter: headers['retry-after'], body: JSON.parse(text) });
      } catch (fault) {
        resolve(`broken off (${fault})`);
      }
    });
    request.on('timeout', () => request.destroy(new Error('no answer')));
    request.on('error', (fault: NodeJS.ErrnoException) => {
      // One that waited to be taken when the port was closed is reset instead.
      const isNew = !request.reusedSocket;
      const isRefused = fault.code === 'ECONNREFUSED' || (isNew && fault.code === 'ECONNRESET');
      resolve(isRefused ? 'refused' : `${fault.code ?? fault.message}${isNew ? '' : ' when used again'}`);
    });
  });
}

const asTold = (site: string, askedMs: number, { windows = [], stale, madeFrom }: Got['body']): Told => ({
  ...{ site, kind: 'windows', askedMs, status: 200, code: '' },
  isGo: windows.some(({ verdict }) => verdict === 'go'),
  stale: stale ?? false,
  document: madeFrom?.document ?? null,
});

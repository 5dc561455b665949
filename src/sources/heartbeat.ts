// A call to a watchdog elsewhere: that it comes means that all is well; what is answered does not matter beyond success.

import { Agent, type Dispatcher, request } from 'undici';
import { messageOf, ServiceError } from '#errors.ts';

export interface HeartbeatOptions {
  readonly url: string;
  /** For tests; it is not closed here. */
  readonly dispatcher?: Dispatcher;
}

const TIMEOUT_MS = 10_000;

/** One GET, no redirect followed. Throws ServiceError `source_unreachable`; never tells more of the address than its host. */
export async function callHeartbeat(options: HeartbeatOptions, signal: AbortSignal): Promise<void> {
  const url = new URL(options.url);
  const agent = options.dispatcher ?? new Agent({ connect: { timeout: TIMEOUT_MS }, connections: 1 });
  try {
    const { statusCode, body } = await request(url, {
      dispatcher: agent,
      headersTimeout: TIMEOUT_MS,
      bodyTimeout: TIMEOUT_MS,
      signal: AbortSignal.any([signal, AbortSignal.timeout(2 * TIMEOUT_MS)]),
    });
    await body.dump({ limit: 4096 });
    if (statusCode >= 200 && statusCode < 300) return;
    throw new Error(`answered with ${statusCode}`);
  } catch (cause) {
    throw new ServiceError('source_unreachable', `watchdog at ${url.host}: ${messageOf(cause)}`, {
      cause,
      retryable: true,
    });
  } finally {
    if (!options.dispatcher) await agent.destroy();
  }
}

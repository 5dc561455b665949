// The HTTP server before the framework: what is finished leaves at once, all else goes on to Fastify.

import type { IncomingMessage, RequestListener, Server, ServerResponse } from 'node:http';
import type { Draining } from './draining.ts';

// Not imported: that would ask for all that the module has, and load a WebSocket client of the runtime with it.
const { createServer } = process.getBuiltinModule('node:http');

/** True where it has answered; false: nothing was touched. */
export type Answerer = (request: IncomingMessage, response: ServerResponse) => boolean;

export interface Front {
  /** For Fastify's option of that name. */
  serverFactory(framework: RequestListener): Server;
  answerBy(answerer: Answerer): void;
  /** From now on everything goes to the framework: it knows how to close. */
  shut(): void;
}

/** Longer than the idle time of the usual balancers (60 s), so that they end a connection and never we. */
const KEEP_ALIVE_MS = 72_000;
/** All of a request must have come by then. */
const REQUEST_MS = 60_000;

const RETRY_AFTER_S = '1';

const nobody: Answerer = () => false;

export function createFront(draining: Draining): Front {
  let answerer = nobody;
  let isShut = false;
  return {
    serverFactory: (framework) =>
      createServer({ keepAliveTimeout: KEEP_ALIVE_MS, requestTimeout: REQUEST_MS }, (request, response) => {
        if (draining.begun) response.setHeader('connection', 'close');
        // The framework refuses; who asks is to ask again, elsewhere.
        if (isShut) response.setHeader('retry-after', RETRY_AFTER_S);
        if (!answerer(request, response)) framework(request, response);
      }),
    answerBy(given) {
      answerer = given;
    },
    shut() {
      isShut = true;
      answerer = nobody;
    },
  };
}

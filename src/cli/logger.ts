// The log of a process: one JSON line each. What is told of requests, answers and faults is listed; no line leaves without
// having been looked through for secrets.

import { type DestinationStream, type Logger, pino } from 'pino';
import { requestHere } from '#publish/access/request-scope.ts';
import { withoutSecrets } from '#publish/access/without-secrets.ts';
import { toldFault } from '#publish/api/told-fault.ts';

/** As the web framework names it in the lines that it writes for a request. */
const REQUEST_ID = 'reqId';

export function createLogger(
  level: string,
  destination: DestinationStream = pino.destination({ dest: 2, sync: true }),
): Logger {
  return pino(
    {
      level,
      serializers: {
        err: toldFault,
        req: (request: { readonly method?: unknown }) => ({ method: request.method }),
        res: (reply: { readonly statusCode?: unknown }) => ({ status: reply.statusCode }),
      },
      mixin: (_told, _level, logger) => {
        const id = requestHere();
        return id === null || REQUEST_ID in logger.bindings() ? {} : { [REQUEST_ID]: id };
      },
      hooks: { streamWrite: withoutSecrets },
    },
    destination,
  );
}

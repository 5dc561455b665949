import { once } from 'node:events';
import { createServer } from 'node:http';
import { expect, it } from 'vitest';
import { makeHttp } from '#sources/http.ts';

it('a client that is closed ends what waits for another try at once', async () => {
  const server = createServer((_request, response) => response.writeHead(500).end()).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  let waiting = (): void => undefined;
  const isWaiting = new Promise<void>((resolve) => {
    waiting = resolve;
  });
  const http = makeHttp({
    userAgent: 'test (ops@example.org)',
    accept: 'application/json',
    nowMs: () => 0,
    // Waits until it is called off, and never by the clock.
    sleep: (_ms, signal) => {
      waiting();
      return new Promise((_resolve, reject) => signal.addEventListener('abort', () => reject(signal.reason)));
    },
    random: () => 0.5,
    log: { info: () => undefined, warn: () => undefined },
  });
  const answer = http.get(`http://127.0.0.1:${port}/x`);
  const outcome = expect(answer).rejects.toMatchObject({
    code: 'source_unreachable',
    message: 'the client is closed',
  });
  await isWaiting;
  await http.close();
  await outcome;
  server.close();
});

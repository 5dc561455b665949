// A server process for the HTTP bench: the demo service, or bare Fastify with the bytes given.

import { fileURLToPath } from 'node:url';
import fastify from 'fastify';
import { readConfigFile } from '#config/load.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService } from '#service/service.ts';

const [kind, body = ''] = process.argv.slice(2);

if (kind === 'bare') {
  const app = fastify();
  const bytes = Buffer.from(body);
  app.get('/', (_request, reply) =>
    reply.header('content-type', 'application/json; charset=utf-8').send(bytes),
  );
  process.send?.(await app.listen({ host: '127.0.0.1', port: 0 }));
} else {
  const nowMs = () => Date.now();
  const standIn = await startStandIn({ nowMs });
  const { config, written } = readConfigFile(fileURLToPath(new URL('../config/demo.yaml', import.meta.url)));
  const sources = { nws: { ...config.sources.nws, baseUrl: standIn.baseUrl } };
  const service = await createService({
    ...(await inMemory(nowMs)),
    config: { ...config, sources },
    written,
    file: 'demo.yaml',
    demo: true,
    ownSource: true,
    nowMs,
    logger: null,
    version: 'bench',
    // Counted as always, but never refused: all of this load comes from one address.
    server: { rateLimits: { keyPerMin: 1e9, addressPerMin: 1e9, loopbackPerMin: 1e9 } },
  });
  await service.keeper.pullAll();
  const base = await service.app.listen({ host: '127.0.0.1', port: 0 });
  process.send?.(`${base}/v1/sites/${config.sites[0]?.id}/windows?day=tomorrow`);
}

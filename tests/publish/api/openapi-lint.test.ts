// The OpenAPI document against the recommended rules of an independent linter (Redocly's, by its library).

import { createConfig, lintFromString } from '@redocly/openapi-core';
import { expect, it } from 'vitest';
import { startRunning } from '../../service/running.ts';

/** Its own reasons beside what is left out. */
const CONFIG = {
  extends: ['recommended'],
  rules: {
    // The program has no licence of its own to name.
    'info-license': 'off',
    // Health is asked without anything that could be wrong.
    'operation-4xx-response': 'off',
  },
} as const;

const problemsOf = async (source: string): Promise<string[]> => {
  const config = await createConfig(CONFIG as never);
  const problems = await lintFromString({ source, absoluteRef: 'openapi.json', config });
  return problems.map(({ ruleId, message, location }) => `${ruleId} ${location[0]?.pointer}: ${message}`);
};

it('the document has nothing against it, and what is wrong would be found', async () => {
  const running = await startRunning('2026-03-03T01:10:00Z', undefined, false);
  const { body } = await running.service.app.inject({ url: '/openapi.json' });
  await running.close();
  expect(await problemsOf(body)).toEqual([]);
  const document = JSON.parse(body);
  delete document.servers;
  document.paths['/v1/plan'].post.operationId = document.paths['/v1/sites'].get.operationId;
  expect((await problemsOf(JSON.stringify(document))).map((line) => line.split(' ')[0]).sort()).toEqual([
    'no-empty-servers',
    'operation-operationId-unique',
  ]);
});

// The samples of docs/dispatch.md, each asked of a running service in the order in which it stands there.

import { readFileSync } from 'node:fs';
import { parseAtomFeed } from 'feedsmith';
import { expect, it } from 'vitest';
import { startBurning } from '../service/watch/start-burning.ts';
import { SITE } from '../service/watch/watched-demo.ts';

const TEXT = readFileSync(new URL('../../docs/dispatch.md', import.meta.url), 'utf8');

interface Sample {
  readonly method: string;
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly payload: string;
}

/** Those under a heading, as HTTP writes a request. */
function samplesUnder(heading: string): Sample[] {
  const section = TEXT.split(/^## /m).find((text) => text.startsWith(heading)) ?? '';
  return [...section.matchAll(/```http\n(.*?)```/gs)].map(([, request = '']) => {
    const [head = '', payload = ''] = request.split('\n\n');
    const [line = '', ...headers] = head.trim().split('\n');
    const [method = '', url = ''] = line.split(' ');
    const named = headers.map((text) => text.split(/: (.*)/s).slice(0, 2) as [string, string]);
    return { method, url, headers: Object.fromEntries(named), payload };
  });
}

it('the samples of messages and orders do what is said of them', async () => {
  const demo = await startBurning();
  const ask = async (sample: Sample | undefined) => {
    const { method, url, headers, payload } = sample ?? { method: '', url: '', headers: {}, payload: '' };
    return demo.service.app.inject({
      ...{ method: method as 'GET', url, headers },
      ...(payload === '' ? {} : { payload }),
    });
  };
  const [index] = samplesUnder('What stands');
  const feed = await ask(index);
  expect(parseAtomFeed(feed.body).entries?.length).toBeGreaterThan(0);
  const [ban, stop, lift] = samplesUnder('Orders');
  const standing = async () => (await demo.api('GET', `${SITE}/now`)).body['text'];
  expect((await ask(ban)).statusCode).toBe(201);
  expect((await demo.api('GET', `${SITE}/windows`)).body).toEqual(
    expect.objectContaining({
      windows: expect.arrayContaining([expect.objectContaining({ verdict: 'stop' })]),
    }),
  );
  const made = await ask(stop);
  expect([made.statusCode, made.json().id, made.headers['etag']]).toEqual([
    201,
    'smoke-on-the-highway',
    '"r1"',
  ]);
  demo.pass(1);
  await demo.minute();
  expect(await standing()).toContain('Smoke on the highway');
  expect((await ask(index)).body).toContain('Fern County fire');
  expect((await ask(lift)).statusCode).toBe(204);
  demo.pass(5);
  await demo.minute();
  expect(await standing()).not.toContain('Smoke on the highway');
  const [assign] = samplesUnder('Your own incident');
  const [burn] = (await demo.api('GET', `${SITE}/burns`)).body['burns'] as { id: string }[];
  const assigned = await ask(assign && { ...assign, url: assign.url.replace('BURN', burn?.id ?? '') });
  expect([assigned.statusCode, assigned.json().incidentRef]).toEqual([200, 'CAD-2026-004711']);
});

// What is silenced is named where the standing is shown: what of it, by whom and until when.

import { expect, it } from 'vitest';
import { wordsOf } from '../../publish/page/read-page.ts';
import { startBurning, TURNED } from './start-burning.ts';
import { SITE } from './watched-demo.ts';

it('a silence of a part of what stands is named on the glance, the day page, the home page and in the answer', async () => {
  const demo = await startBurning();
  await demo.reads(TURNED);
  const asked = { site: 'north-block', code: 'smoke-turned-to-place', minutes: 60, reason: 'on the radio' };
  expect((await demo.api('POST', '/v1/silences', asked)).status).toBe(201);
  const said =
    /texts? do(es)? not go out until 11:05 am \(smoke to a place\), silenced by .+: on the radio|No texts go out until 11:05 am \(smoke to a place\), silenced by .+: on the radio/;
  const page = async (url: string) => wordsOf((await demo.service.app.inject({ method: 'GET', url })).body);
  for (const url of ['/', '/sites/north-block', '/sites/north-block/now']) {
    expect(await page(url), url).toMatch(said);
  }
  const { body } = await demo.api('GET', `${SITE}/now`);
  expect(body['silences']).toMatchObject([{ code: 'smoke-turned-to-place', reason: 'on the radio' }]);
  demo.pass(61);
  expect((await demo.api('GET', `${SITE}/now`)).body['silences']).toEqual([]);
  expect(await page('/sites/north-block/now')).not.toContain('silenced by');
});

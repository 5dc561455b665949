// A Red Flag Warning that comes while the grid cannot be had must be seen at the next round all the same.

import { afterEach, describe, expect, it } from 'vitest';
import { readConfig } from '#config/load.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { inMemory } from '#service/in-memory.ts';
import { createService } from '#service/service.ts';
import { startFront } from './front.ts';
import { DEMO_YAML } from './running.ts';

const SITE = 'north-block';
const NOW_MS = Date.parse('2026-03-03T15:10:00Z');
const ROUND_MS = 20 * 60_000;

const open: (() => Promise<unknown>)[] = [];

afterEach(async () => {
  for (const close of open.splice(0)) await close();
});

const WARNING = {
  sent: '2026-03-03T15:15:00+00:00',
  onset: '2026-03-03T06:00:00+00:00',
  ends: '2026-03-04T18:00:00+00:00',
};

async function started() {
  const clock = { nowMs: NOW_MS };
  const nowMs = () => clock.nowMs;
  const standIn = await startStandIn({ nowMs });
  const { state, baseUrl, behind, close } = await startFront();
  behind(standIn.baseUrl);
  open.push(close, standIn.close);
  const { config, written } = readConfig(DEMO_YAML, 'demo.yaml');
  const service = await createService({
    ...(await inMemory(nowMs)),
    written,
    file: 'demo.yaml',
    steadyMs: () => 0,
    config: { ...config, sources: { nws: { ...config.sources.nws, baseUrl } } },
    demo: true,
    ownSource: true,
    nowMs,
    logger: null,
    sleep: () => Promise.resolve(),
    version: '0.0.0-test',
  });
  open.unshift(() => service.close());
  const round = async () => {
    clock.nowMs += ROUND_MS;
    await service.keeper.pullAll();
  };
  const get = async (path: string) => (await service.app.inject({ url: `/v1/sites/${SITE}${path}` })).json();
  await service.keeper.pullAll();
  return { state, clock, round, get };
}

interface Window {
  readonly verdict: string;
  readonly reasons: readonly { readonly code: string }[];
}

const verdicts = (answered: { windows: Window[] }): Set<string> =>
  new Set(answered.windows.map(({ verdict }) => verdict));

describe('a Red Flag Warning that comes while the grid fails', () => {
  const day = '/windows?day=2026-03-03';

  it('turns the answer to stop at the next round, beside the forecast that is held', async () => {
    const { state, round, get } = await started();
    const before = await get('');
    expect(verdicts(await get(day))).toContain('go');
    state.gridFails = true;
    state.warning = WARNING;
    await round();
    const after = await get('');
    expect(after.forecast.fault.code).toBe('source_unreachable');
    expect(after.forecast.documentId).toBe(before.forecast.documentId);
    expect([...verdicts(await get(day))]).toEqual(['stop']);
  });

  it('is seen at once, not only when the alerts held have grown too old', async () => {
    const { state, round, get } = await started();
    state.gridFails = true;
    await round();
    // Without a warning the same failure leaves the answer as it was: it is the warning that stops.
    expect(verdicts(await get(day))).toContain('go');
    state.warning = WARNING;
    await round();
    expect([...verdicts(await get(day))]).toEqual(['stop']);
  });

  it('that cannot be asked for leaves no go: the list is then not known to be whole', async () => {
    const { state, round, get } = await started();
    state.gridFails = true;
    state.alertsFail = true;
    await round();
    expect(verdicts(await get(day))).not.toContain('go');
  });
});

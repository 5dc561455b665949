// Sites at many places, over the stand-in: all their alerts come from one list, and each site gets its own and no other.

import { expect, it } from 'vitest';
import { startRunning } from './running.ts';

/** So many sites beside one of the demonstration's, each at a place of its own in the same cell. */
function sitesAround(yaml: string, id: string, count: number): string {
  const from = yaml.indexOf(`  - id: ${id}`);
  const end = yaml.indexOf('\n\n', from);
  const block = yaml.slice(from, end < 0 ? undefined : end).trimEnd();
  const at = /at: \[([\d.]+), (-[\d.]+)\]/.exec(block);
  const copies = Array.from({ length: count }, (_, i) =>
    block
      .replace(`id: ${id}`, `id: ${id}-${i}`)
      .replace(/name: (.*)\n/, `name: $1 copy ${i}\n`)
      .replace(/at: .*\n/, `at: [${(Number(at?.[1]) + (i + 1) / 10_000).toFixed(4)}, ${at?.[2]}]\n`),
  );
  return `${yaml.slice(0, from)}${copies.join('\n\n')}\n\n${yaml.slice(from)}`;
}

it('of 83 sites those in the warned fire zone are stopped, and no other', async () => {
  const running = await startRunning('2026-03-03T15:10:00Z', (yaml) =>
    sitesAround(sitesAround(yaml, 'ridge-block', 40), 'north-block', 40),
  );
  const { mirror } = running.service;
  const sites = [...mirror.book().sites.keys()];
  expect(sites).toHaveLength(83);
  for (const key of sites) {
    const { held } = mirror.state(key);
    expect([key, held?.alerts.complete]).toEqual([key, true]);
    const events = held?.alerts.alerts.map(({ event, possible }) => `${event} ${possible}`);
    const isWarned = key.includes('ridge-block');
    expect([key, new Set(events)]).toEqual([key, new Set(isWarned ? ['Red Flag Warning false'] : [])]);
  }
  const verdicts = async (site: string) => {
    const url = `/v1/sites/${site}/windows?day=2026-03-03`;
    const { windows } = (await running.service.app.inject({ url })).json();
    return new Set(windows.map(({ verdict }: { verdict: string }) => verdict));
  };
  expect(await verdicts('ridge-block-39')).toEqual(new Set(['stop']));
  expect(await verdicts('north-block-39')).toContain('go');
  await running.close();
});

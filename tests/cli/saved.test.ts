// Saved forecasts replayed, whole and spoiled; and what the command line says of a fault of its own.

import { utimesSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DEMO_YAML } from '../service/running.ts';
import { run } from './run.ts';
import { useFiles } from './use-files.ts';

const { file } = useFiles();

describe('saved forecasts', () => {
  it('a saved forecast gives the same plan later, as of the moment of saving', async () => {
    const now = '2026-03-03T01:10:00Z';
    const saved = file('saved.json', (await run(['save', 'north-block', '--demo'], { now })).out);
    const live = await run(['plan', 'north-block', '--demo', '--day', '2026-03-03', '--json'], { now });
    const args = ['plan', 'north-block', '--forecast', saved, '--now', now, '--day', '2026-03-03', '--json'];
    const own = file('own.yaml', DEMO_YAML);
    const replayed = await run([...args, '--config', own], { now: '2027-01-01T00:00:00Z' });
    expect({ ...JSON.parse(replayed.out), demo: true }).toEqual(JSON.parse(live.out));
  });

  it('the same file a day later is stale: hold, and nobody can say', async () => {
    const saved = file('old.json', (await run(['save', 'north-block', '--demo'])).out);
    const own = file('own2.yaml', DEMO_YAML);
    const late = await run(
      ['check', 'north-block', '--forecast', saved, '--config', own, '--day', '2026-03-04'],
      { now: '2026-03-04T01:10:00Z' },
    );
    expect(late.code).toBe(12);
    expect(late.out).toMatch(/No fresh forecast/);
  });

  it('the same file judged as of a moment before it was made is ahead of the clock, never "0 min old", and no go', async () => {
    const now = '2026-03-03T01:10:00Z';
    const saved = file('ahead.json', (await run(['save', 'north-block', '--demo'], { now })).out);
    const own = file('own4.yaml', DEMO_YAML);
    const at = (ms: number, ...more: string[]) => {
      const args = ['check', 'north-block', '--forecast', saved, '--config', own, '--day', '2026-03-03'];
      return run([...args, '--now', new Date(ms).toISOString(), ...more]);
    };
    const madeMs = Date.parse(JSON.parse((await at(Date.parse(now), '--json')).out).madeAt);
    const early = await at(madeMs - 4 * 3_600_000);
    expect([early.code, early.out]).toEqual([12, expect.stringContaining('(stamped 4 h ahead)')]);
    expect(early.out).not.toContain('min old');
    expect((await at(madeMs - 20_000)).out).toContain('(stamped 1 min ahead)');
  });

  it('a forecast for another place is refused, however good', async () => {
    const saved = file('far.json', (await run(['save', 'north-block', '--demo'])).out);
    const far = file('far.yaml', DEMO_YAML.replace('[36.438, -120.231]', '[38.97, -92.33]'));
    const { code, err } = await run([
      'check',
      'north-block',
      '--config',
      far,
      '--forecast',
      saved,
      '--now',
      '2026-03-03T01:10:00Z',
    ]);
    expect([code, err]).toEqual([12, expect.stringMatching(/is for a place \d+ km away/)]);
  });

  it('a bare grid document without alerts is no go, with an empty list of alerts it can be', async () => {
    const saved = JSON.parse((await run(['save', 'north-block', '--demo'])).out);
    const grid = file('grid.json', saved.gridpoint);
    const alerts = file('alerts.json', '{"type":"FeatureCollection","features":[]}');
    const own = file('own3.yaml', DEMO_YAML);
    const args = [
      'check',
      'north-block',
      '--config',
      own,
      '--forecast',
      grid,
      '--now',
      '2026-03-03T01:10:00Z',
      '--day',
      '2026-03-03',
    ];
    expect((await run(args)).code).toBe(12);
    expect((await run([...args, '--alerts', alerts])).code).toBe(0);
  });

  it('a list of alerts is as old as its file: one of hours ago says nothing of now', async () => {
    const now = '2026-03-03T01:10:00Z';
    const saved = JSON.parse((await run(['save', 'north-block', '--demo'], { now })).out);
    const grid = file('grid2.json', saved.gridpoint);
    const alerts = file('alerts2.json', '{"type":"FeatureCollection","features":[]}');
    const own = file('own5.yaml', DEMO_YAML);
    const args = [
      'check',
      'north-block',
      '--config',
      own,
      '--forecast',
      grid,
      '--alerts',
      alerts,
      '--now',
      now,
    ];
    const codeWith = async (hoursBefore: number) => {
      const writtenS = Date.parse(now) / 1000 - hoursBefore * 3600;
      utimesSync(alerts, writtenS, writtenS);
      return (await run([...args, '--day', '2026-03-03'])).code;
    };
    expect([await codeWith(1), await codeWith(3)]).toEqual([0, 12]);
  });

  it('a file that begins with what npm says of itself is told to have been written through npm', async () => {
    const saved = file('npm.json', '\n> pitward@0.1.0 pitward\n> node scripts/pitward.mjs save\n\n{}');
    const own = file('own-npm.yaml', DEMO_YAML);
    const { code, err } = await run(['plan', 'north-block', '--forecast', saved, '--config', own]);
    expect([code, err]).toEqual([1, expect.stringContaining('npm run -s leaves them out')]);
  });

  it('a saved forecast in a time zone that is none is refused', async () => {
    const saved = JSON.parse((await run(['save', 'north-block', '--demo'])).out);
    const odd = file('zone.json', JSON.stringify({ ...saved, timeZone: 'Nowhere/Land' }));
    const own = file('own6.yaml', DEMO_YAML);
    const { code, err } = await run(['check', 'north-block', '--config', own, '--forecast', odd]);
    expect([code, err]).toEqual([12, expect.stringMatching(/expected an IANA time zone name/)]);
  });
});

describe('a fault of the program itself', () => {
  it('is told in one line, is no go, and shows its trace to whoever asks', async () => {
    const broken = { now: 'no time at all' };
    const own = file('own7.yaml', DEMO_YAML);
    const saved = file('saved7.json', (await run(['save', 'north-block', '--demo'])).out);
    const args = ['check', 'north-block', '--config', own, '--forecast', saved];
    const { code, out, err } = await run(args, broken);
    expect([code, out, err]).toEqual([
      12,
      '',
      expect.stringMatching(/^A fault of the program, and no answer: [^\n]*$/),
    ]);
    const traced = await run(args, { ...broken, environment: { LOG_LEVEL: 'debug' } });
    expect(traced.err).toContain('    at ');
    expect((await run(['plan', ...args.slice(1)], broken)).code).toBe(1);
  });
});

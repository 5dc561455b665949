import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readConfigFile } from '#config/load.ts';
import { planSchema, windowsSchema } from '#publish/wire.ts';
import { importFile } from '#service/import-config.ts';
import { openStore } from '#store/open-store.ts';
import { DEMO_YAML } from '../service/running.ts';
import { run } from './run.ts';
import { useFiles } from './use-files.ts';

const { file, folder } = useFiles();
const README = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const NOW_MS = Date.parse('2026-03-03T01:10:00Z');

describe('manners', () => {
  it('a bare call and --help print help to standard output and end with 0', async () => {
    expect(await run([])).toMatchObject({ code: 0, err: '' });
    for (const verb of ['serve', 'windows', 'plan', 'check', 'check-config', 'save', 'backup', 'restore']) {
      const { code, out } = await run([verb, '--help']);
      expect([code, out.includes(`pitward ${verb}`)]).toEqual([0, true]);
    }
    for (const verb of ['windows', 'plan'])
      expect((await run([verb, '--help'])).out).toContain('only "pitward check" decides by its exit code');
    for (const args of [['--version'], ['serve', '--version'], ['check', '--version']]) {
      expect(await run(args)).toMatchObject({ code: 0, out: expect.stringMatching(/^\d+\.\d+\.\d+$/) });
    }
  });

  it('a mistyped command or option names the nearest one and ends with 2', async () => {
    expect(await run(['windws'])).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringContaining('did you mean windows'),
    });
    expect(await run(['plan', '--dmo'])).toMatchObject({ code: 2, err: expect.stringContaining('--demo') });
    expect(await run(['check-config', '--day', 'today'])).toMatchObject({
      code: 2,
      err: expect.stringContaining('takes no --day'),
    });
  });

  it.each([
    [['plan', 'nowhere', '--demo'], /no site "nowhere"; there are: north-block/],
    [['plan', '--demo'], /which site\?/],
    [['plan', 'north-block', '--demo', '--day', 'someday'], /--day: expected today, tomorrow/],
    [['plan', 'north-block', '--demo', '--units', 'metric'], /--units: expected us or si/],
    [['plan', 'north-block', '--demo', '--now', '5pm'], /--now: expected an RFC 3339 instant/],
    [['check', 'north-block', '--demo', '--now', '+275760-09-13T00:00:00Z'], /--now: expected an RFC 3339/],
    [
      ['windows', 'north-block', '--demo', '--from', '+010000-01-01T00:00:00Z', '--to', 'x'],
      /--from: expected/,
    ],
    [['check', 'north-block', '--demo', '--limits', 'hills'], /--limits goes with --at/],
    [['plan', '--demo', '--at', '36.4,', '--limits', 'hills'], /--at: expected latitude,longitude/],
    [['plan', '--demo', '--at', 'here', '--limits', 'hills'], /--at: expected latitude,longitude/],
    [['check', '--demo', '--at', '36.4,-120.2'], /--at needs --limits; there are: valley, hills/],
    [['plan', '--demo', '--at', '36.4,-120.2', '--limits', 'none'], /no limit set "none"/],
    [['windows', 'north-block', '--demo', '--from', '2026-03-03'], /both from and to/],
    [['serve', '--demo', '--port', 'eighty'], /--port: expected a number/],
  ])('%j is wrong usage and says what was expected', async (args, expected) => {
    const { code, err, out } = await run(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(expected);
  });
});

describe('answers', () => {
  it('plan prints the word, the three times and why; --json prints the API’s document alone', async () => {
    const text = await run(['plan', 'north-block', '--demo', '--day', 'tomorrow']);
    expect(text.code).toBe(0);
    for (const part of [
      'DEMO',
      'GO',
      'Light-up from',
      'Last charge',
      'Covered by',
      'Why stop charging',
      'not a permit',
    ]) {
      expect(text.out).toContain(part);
    }
    const json = await run(['plan', 'north-block', '--demo', '--day', 'tomorrow', '--json']);
    expect(planSchema.parse(JSON.parse(json.out)).verdict).toBe('go');
  });

  it('windows prints each window with its reasons, in Spanish too', async () => {
    const { out } = await run(['windows', 'creek-block', '--demo', '--day', 'tomorrow', '--lang', 'es']);
    expect(out).toMatch(/ESPERE[\s\S]*ADELANTE/);
    const json = await run([
      'windows',
      'creek-block',
      '--demo',
      '--from',
      '2026-03-03',
      '--to',
      '2026-03-04',
      '--json',
    ]);
    expect(windowsSchema.parse(JSON.parse(json.out)).to).toBe('2026-03-05T00:00:00-08:00');
  });

  it('--at plans a place that is in no configuration', async () => {
    const { code, out, err } = await run([
      'plan',
      '--demo',
      '--at',
      '36.438,-120.231',
      '--limits',
      'valley',
      '--day',
      'tomorrow',
    ]);
    expect([code, out.includes('36.438,-120.231')]).toEqual([0, true]);
    expect(err).toContain('it has no protected places and no shift');
  });
});

describe('check', () => {
  it('dates what is not of the day of asking: a stop since yesterday does not read as one from this afternoon on', async () => {
    const { out } = await run(['check', 'ridge-block', '--demo'], { now: '2026-03-03T14:19:00Z' });
    expect(out).toMatch(/STOP {2}Mon, Mar 2, \d+:\d+ [ap]m - /);
  });

  it('ends with 0 only for go, 10 for hold, 11 for stop', async () => {
    const go = '2026-03-03T18:30:00Z';
    expect((await run(['check', 'north-block', '--demo'], { now: go })).code).toBe(0);
    expect((await run(['check', 'ridge-block', '--demo'], { now: go })).code).toBe(11);
    expect((await run(['check', 'creek-block', '--demo'], { now: go })).code).toBe(10);
    expect((await run(['check', 'north-block', '--demo', '--day', 'tomorrow'])).code).toBe(0);
    expect((await run(['check', 'ridge-block', '--demo', '--day', 'tomorrow'])).code).toBe(11);
    expect((await run(['check', 'north-block', '--demo', '--day', '2027-01-01'])).code).toBe(12);
    for (const code of [0, 10, 11, 12, 2]) expect(README).toMatch(new RegExp(`^\\| ${code} \\| `, 'm'));
  });

  it('is no go when a fire lit now would take its first charge too late, nor when the day is over', async () => {
    const last = JSON.parse(
      (await run(['plan', 'north-block', '--demo', '--day', 'tomorrow', '--json'])).out,
    ).lastCharge;
    const minutesBefore = (min: number) => new Date(Date.parse(last) - min * 60_000).toISOString();
    const now = (min: number) => run(['check', 'north-block', '--demo'], { now: minutesBefore(min) });
    const inTime = await now(21);
    expect([inTime.code, inTime.out]).toEqual([0, expect.stringContaining('Light-up at the latest')]);
    const late = await now(20);
    expect([late.code, late.out]).toEqual([10, expect.stringContaining('Too late to light')]);
    expect(late.out).not.toContain('GO');
    const headline = (out: string) => out.split('\n').find((line) => /^(>|\|\||\[\]) /.test(line));
    expect(headline(late.out)).toMatch(/^\|\| HOLD {2}Too late to light/);
    const inSpanish = await run(['check', 'north-block', '--demo', '--lang', 'es'], {
      now: minutesBefore(20),
    });
    expect([inSpanish.code, headline(inSpanish.out)]).toEqual([
      10,
      expect.stringMatching(/^\|\| \S+ {2}Ya es tarde/),
    ]);
    expect(headline(inTime.out)).toMatch(/^> GO {2}/);
    expect(
      (await run(['check', 'north-block', '--demo', '--day', 'today'], { now: minutesBefore(-60) })).code,
    ).not.toBe(0);
  });

  it('ends with 12 where the source gives no answer, and never falls back to the demo', async () => {
    const live = file('dead.yaml', DEMO_YAML.replace('http://127.0.0.1', 'http://127.0.0.1:9'));
    const { code, out, err } = await run(['check', 'north-block', '--config', live]);
    expect([code, out]).toEqual([12, '']);
    expect(err).toContain('127.0.0.1:9');
    expect(err).toMatch(/trying again in \d+ s[\s\S]*given up after 4 tries/);
    expect((await run(['plan', 'north-block', '--config', live])).code).toBe(3);
  }, 60_000);

  it('ends with 12 for a faulty configuration and 2 for wrong usage, never with 0', async () => {
    expect((await run(['check', 'x', '--config', join(folder(), 'none.yaml')])).code).toBe(12);
    expect((await run(['check', '--nonsense'])).code).toBe(2);
  });
});

describe('check-config', () => {
  it('lists all faults at once with their paths and ends with 1', async () => {
    const bad = file(
      'bad.yaml',
      DEMO_YAML.replace('25 mph', '25 knots')
        .replace('limits: hills', 'limits: hils')
        .replace('windSpeed', 'windspeed'),
    );
    const { code, err } = await run(['check-config', '--config', bad]);
    expect(code).toBe(1);
    for (const part of [
      '3 faults',
      'limitSets.valley[0].element',
      'limitSets.valley[1].atMost.stop',
      'sites[2].limits',
    ]) {
      expect(err).toContain(part);
    }
    const json = JSON.parse((await run(['check-config', '--config', bad, '--json'])).out);
    expect(json.faults).toHaveLength(3);
  });

  it('finds the file by PITWARD_CONFIG and says how many sites it has', async () => {
    const good = file('good.yaml', DEMO_YAML);
    expect(await run(['check-config'], { environment: { PITWARD_CONFIG: good } })).toMatchObject({
      code: 0,
      out: `${good}: no fault; 3 sites, 2 limit sets`,
    });
  });

  it('warns of a contact that nobody has, which is no fault', async () => {
    const warned = file('warned.yaml', DEMO_YAML);
    const { code, err } = await run(['check-config', '--config', warned]);
    expect([code, err]).toEqual([
      0,
      expect.stringMatching(/^Warning: contact: "[^"]*\.example" is an address/),
    ]);
    const json = JSON.parse((await run(['check-config', '--config', warned, '--json'])).out);
    expect(json.warnings.map(({ path }: { path: string }) => path)).toEqual(['contact']);
    const plain = file('plain.yaml', DEMO_YAML.replace(/^contact: .*$/m, 'contact: office@hollowreed.us'));
    expect((await run(['check-config', '--config', plain])).err).toBe('');
  });

  it('shows what the next start would change by the file, and changes nothing', async () => {
    const own = file('own.yaml', `${DEMO_YAML}\nstore: { file: own.db }\n`);
    expect((await run(['check-config', '--config', own])).out).not.toContain('next start');
    const store = await openStore({ sqliteFile: join(dirname(own), 'own.db') }, { nowMs: () => NOW_MS });
    const { config, written } = readConfigFile(own);
    const { organisation } = config;
    await importFile(store, { written, organisation, file: 'own.yaml', nowMs: NOW_MS });
    await store.close();
    expect((await run(['check-config', '--config', own])).out).toMatch(/At the next start:\nno change$/);
    writeFileSync(own, readFileSync(own, 'utf8').replace('stop: 25 mph', 'stop: 24 mph'));
    const line = /~ limit-set valley\n {4}\[\d\]\.atMost\.stop: 25 mph -> 24 mph/;
    for (let i = 0; i < 2; i += 1) expect((await run(['check-config', '--config', own])).out).toMatch(line);
    const { changes } = JSON.parse((await run(['check-config', '--config', own, '--json'])).out);
    expect(changes).toContain('~ limit-set valley');
  });
});

// A configuration file and the store: what the file rules over, what it leaves alone, and two who import at once.

import { beforeEach, describe, expect, it } from 'vitest';
import { ServiceError } from '#errors.ts';
import { importFile, planImport } from '#service/import-config.ts';
import type { Definition, DefinitionChange } from '#store/definition.ts';
import type { DefinitionRecords } from '#store/store.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const SHIFT = { days: ['mon'], from: '07:00', to: '17:00' };
const limits = (hold: string) => [{ element: 'windSpeed', atMost: { hold }, source: 'permit' }];
const site = (id: string, more: object = {}) => ({
  id,
  name: id,
  at: [38.97, -92.33],
  limits: 'valley',
  shift: SHIFT,
  ...more,
});
const FILE = { limitSets: { valley: limits('12 mph') }, sites: [site('north')] };

let rows: Definition[];
let races: number;
let written: number;

/** Every revision that was ever written; refuses what replaces another than the newest. */
const records = {
  current: async () => {
    const newest = new Map(rows.map((row) => [`${row.organisation} ${row.kind} ${row.id}`, row]));
    return [...newest.values()];
  },
  writtenBy: async (origin: string, organisation: string) =>
    rows.filter((row) => row.origin === origin && row.organisation === organisation),
  history: async ({ kind, id }: Definition) =>
    rows.filter((row) => row.kind === kind && row.id === id).toReversed(),
  change: async (changes: readonly DefinitionChange[]) => {
    if (races > 0) {
      races -= 1;
      throw new ServiceError('changed_meanwhile', 'somebody was faster');
    }
    written += 1;
    for (const { replaces, ...change } of changes) rows.push({ ...change, revision: replaces + 1 });
  },
} as unknown as DefinitionRecords;

beforeEach(() => {
  rows = [];
  races = 0;
  written = 0;
});

const given = (file: object, organisation = 'own') => ({
  written: file as Record<string, unknown>,
  organisation,
  file: 'pitward.yaml',
  nowMs: NOW_MS,
});
const asStore = (definitions: DefinitionRecords) => ({ definitions, watch: { openBurns: async () => [] } });
const importing = (file: object, organisation?: string) =>
  importFile(asStore(records), given(file, organisation));
/** `hour`: hours after the first import. */
const importingAt = (hour: number, file: object, more: { goBack?: boolean } = {}) =>
  importFile(asStore(records), { ...given(file), nowMs: NOW_MS + hour * 3_600_000, ...more });

/** As somebody does it through the API. */
async function byApi(kind: Definition['kind'], id: string, body: unknown): Promise<void> {
  const before = (await records.current()).find((row) => row.kind === kind && row.id === id);
  const revision = (before?.revision ?? 0) + 1;
  const row = { organisation: 'own', kind, id, body, revision, origin: 'api', changedBy: 'office key' };
  rows.push({ ...row, changedAtMs: NOW_MS } as Definition);
}

const bodyOf = async (kind: string, id: string): Promise<unknown> =>
  (await records.current()).find((row) => row.kind === kind && row.id === id)?.body;

describe('a file', () => {
  it('brings what it has, limit sets first, under its name; the same file again changes nothing', async () => {
    expect(await importing(FILE)).toEqual(['+ limit-set valley', '+ site north']);
    const facts = rows.map(({ organisation, kind, origin, changedBy, changedAtMs, revision }) => [
      organisation,
      kind,
      origin,
      changedBy,
      changedAtMs,
      revision,
    ]);
    expect(facts).toEqual([
      ['own', 'limit-set', 'file', 'pitward.yaml', NOW_MS, 1],
      ['own', 'site', 'file', 'pitward.yaml', NOW_MS, 1],
    ]);
    expect(await importing(structuredClone(FILE))).toEqual([]);
    expect([rows.length, written]).toEqual([2, 1]);
  });

  it('shows what differs before any of it applies', async () => {
    await importing(FILE);
    const changed = { ...FILE, limitSets: { valley: limits('10 mph') } };
    const { lines, changes } = await planImport(asStore(records), given(changed));
    expect(lines).toEqual(['~ limit-set valley', '    [0].atMost.hold: 12 mph -> 10 mph']);
    expect(changes.map(({ replaces, body }) => [replaces, body])).toEqual([[1, limits('10 mph')]]);
    expect(rows).toHaveLength(2);
  });

  it('takes out what it brought and no longer has, once, and brings it again', async () => {
    await importing({ ...FILE, sites: [site('north'), site('creek')] });
    expect(await importing(FILE)).toEqual(['- site creek']);
    expect(await importing(FILE)).toEqual([]);
    expect(await bodyOf('site', 'creek')).toBe(null);
    expect(await importing({ ...FILE, sites: [site('north'), site('creek')] })).toEqual(['+ site creek']);
  });

  it('leaves alone what came through the API, and other organisations', async () => {
    await importing(FILE);
    await byApi('site', 'creek', site('creek'));
    await importing({ limitSets: { valley: limits('9 mph') }, sites: [site('other')] }, 'neighbour');
    expect(await importing(FILE)).toEqual([]);
    expect(await bodyOf('site', 'creek')).toEqual(site('creek'));
  });
});

describe('what the API has changed since', () => {
  it('stays until the file changes that definition again', async () => {
    await importing(FILE);
    await byApi('limit-set', 'valley', limits('8 mph'));
    const stays = '= limit-set valley stays as office key changed it; the file has not changed since';
    expect(await importing(FILE)).toEqual([stays]);
    expect(await bodyOf('limit-set', 'valley')).toEqual(limits('8 mph'));
    expect(await importing({ ...FILE, limitSets: { valley: limits('10 mph') } })).toEqual([
      '~ limit-set valley',
      '    [0].atMost.hold: 8 mph -> 10 mph',
    ]);
    expect(rows.at(-1)?.revision).toBe(3);
  });

  it('stays taken out, too', async () => {
    await importing({ ...FILE, sites: [site('north'), site('creek')] });
    await byApi('site', 'creek', null);
    const again = await importing({ ...FILE, sites: [site('north'), site('creek')] });
    expect(again).toEqual(['= site creek stays as office key changed it; the file has not changed since']);
    expect(await bodyOf('site', 'creek')).toBe(null);
  });

  it('gives way where the file has never said anything of it before', async () => {
    await byApi('limit-set', 'valley', limits('8 mph'));
    await importing(FILE);
    expect(await bodyOf('limit-set', 'valley')).toEqual(limits('12 mph'));
  });
});

describe('a file that would leave a site without its limits', () => {
  it('is refused whole, with the path, and nothing is written', async () => {
    await importing({ ...FILE, limitSets: { valley: limits('12 mph'), hills: limits('9 mph') } });
    await byApi('site', 'ridge', site('ridge', { limits: 'hills' }));
    const without = importing({ ...FILE, sites: [site('north'), site('creek')] });
    await expect(without).rejects.toMatchObject({
      code: 'config_invalid',
      facts: { faults: [{ path: 'site own/ridge', message: 'no limit set "hills"' }] },
    });
    expect([await bodyOf('site', 'creek'), await bodyOf('limit-set', 'hills')]).toEqual([
      undefined,
      limits('9 mph'),
    ]);
  });

  it('is not refused for what was broken before, by whatever', async () => {
    await importing(FILE);
    await byApi('site', 'ridge', site('ridge', { limits: 'gone' }));
    expect(await importing({ ...FILE, sites: [site('north'), site('creek')] })).toEqual(['+ site creek']);
  });
});

describe('two that import at the same moment', () => {
  it('work out anew what is left to do', async () => {
    races = 2;
    expect(await importing(FILE)).toEqual(['+ limit-set valley', '+ site north']);
    expect(written).toBe(1);
  });

  it('give up where the other never lets them, and at once where it is no race', async () => {
    races = 3;
    await expect(importing(FILE)).rejects.toMatchObject({ code: 'changed_meanwhile' });
    expect([races, written]).toEqual([0, 0]);
    let asked = 0;
    const failing = {
      ...records,
      change: async () => {
        asked += 1;
        throw new ServiceError('store_unavailable', 'disk full');
      },
    } as unknown as DefinitionRecords;
    await expect(importFile(asStore(failing), given(FILE))).rejects.toMatchObject({
      code: 'store_unavailable',
    });
    expect(asked).toBe(1);
  });
});

describe('an older file', () => {
  const stricter = { ...FILE, limitSets: { valley: limits('10 mph') } };
  const more = { ...stricter, sites: [site('north'), site('creek')] };

  it('is refused: it would loosen what the newer one has made stricter, and take out what it has added', async () => {
    await importingAt(0, FILE);
    await importingAt(1, stricter);
    await importingAt(2, more);
    const before = [...rows];
    for (const old of [FILE, stricter]) {
      await expect(importingAt(3, old)).rejects.toMatchObject({
        code: 'config_older',
        message: expect.stringMatching(/pitward\.yaml is as it was before .* 2026-03-02T1[34]:00.*--go-back/),
      });
    }
    expect(rows).toEqual(before);
    expect(await importingAt(4, more)).toEqual([]);
  });

  it('is taken where somebody means to go back, and is the newest from then on', async () => {
    await importingAt(0, FILE);
    await importingAt(1, more);
    expect(await importingAt(2, FILE, { goBack: true })).toEqual([
      '~ limit-set valley',
      '    [0].atMost.hold: 10 mph -> 12 mph',
      '- site creek',
    ]);
    expect(await importingAt(3, FILE)).toEqual([]);
    await expect(importingAt(4, more)).rejects.toMatchObject({ code: 'config_older' });
  });

  it('that has been changed since is a new one', async () => {
    await importingAt(0, FILE);
    await importingAt(1, stricter);
    const again = { ...FILE, sites: [site('north', { name: 'North' })] };
    expect(await importingAt(2, again)).toContain('~ limit-set valley');
  });

  it('is no older one for what the API has changed meanwhile', async () => {
    await importingAt(0, FILE);
    await byApi('limit-set', 'valley', limits('8 mph'));
    expect(await importingAt(1, FILE)).toEqual([expect.stringContaining('stays as')]);
  });
});

it('what will change is shown before any of it does', async () => {
  const seen: unknown[] = [];
  await importFile(asStore(records), given(FILE), (lines) => seen.push([rows.length, lines]));
  expect(seen).toEqual([[0, ['+ limit-set valley', '+ site north']]]);
  await importFile(asStore(records), given(FILE), () => seen.push('more'));
  expect(seen).toHaveLength(1);
});

// The configuration file at start: what differs is worked out and shown, and all of it applies or nothing.

import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ServiceError } from '#errors.ts';
import { importFile, planImport } from '#service/import-config.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { burnOf } from '../builders/watch-records.ts';
import { LIMITS, siteBody } from '../publish/access/fitting-request.ts';

const NOW_MS = Date.parse('2026-03-03T01:10:00Z');
let store: Store;
beforeEach(async () => {
  store = await openStore({ sqliteFile: ':memory:' }, { nowMs: () => NOW_MS });
});
afterEach(() => store.close());

const ban = { name: 'County ban', issuer: 'county', from: '2026-04-01' };
const WRITTEN = {
  limitSets: { valley: LIMITS },
  sites: [siteBody('north', 'valley'), siteBody('creek', 'valley')],
  orders: [ban],
};

const given = (written: object) => ({
  written: written as Record<string, unknown>,
  organisation: 'own',
  file: 'pitward.yaml',
  nowMs: NOW_MS,
});
const show = async (written: object) => (await planImport(store, given(written))).lines;
const bring = (written: object) => importFile(store, given(written));
const current = async () =>
  (await store.definitions.current())
    .filter(({ body }) => body !== null)
    .map(({ kind, id, revision, origin }) => `${kind} ${id} r${revision} ${origin}`);

describe('a configuration file', () => {
  it('is shown before it applies, and shown is not applied', async () => {
    const lines = await show(WRITTEN);
    expect(lines.filter((line) => line.startsWith('+ '))).toHaveLength(4);
    expect(lines).toContain('+ site north');
    expect(await current()).toEqual([]);
    expect(await bring(WRITTEN)).toEqual(lines);
    expect(await current()).toHaveLength(4);
  });

  it('changes nothing where nothing differs', async () => {
    await bring(WRITTEN);
    const before = await store.keys.audit(100);
    expect(await bring(structuredClone(WRITTEN))).toEqual([]);
    expect(await store.keys.audit(100)).toEqual(before);
    expect(before.every(({ who }) => who === 'pitward.yaml')).toBe(true);
  });

  it('shows each figure before and after, and what is taken out', async () => {
    await bring(WRITTEN);
    const stricter = [{ ...LIMITS[0], atMost: { hold: '10 mph', stop: '15 mph' } }];
    const changed = { limitSets: { valley: stricter }, sites: [siteBody('north', 'valley')], orders: [ban] };
    const lines = await bring(changed);
    expect(lines).toEqual(['~ limit-set valley', '    [0].atMost.hold: 12 mph -> 10 mph', '- site creek']);
    expect(await current()).toContain('limit-set valley r2 file');
    expect((await current()).some((line) => line.includes('creek'))).toBe(false);
  });

  it('leaves what was changed through the API, until it changes that very definition itself', async () => {
    await bring(WRITTEN);
    const renamed = { ...siteBody('north', 'valley'), name: 'Renamed' };
    const id = { organisation: 'own', kind: 'site', id: 'north' } as const;
    await store.definitions.change([
      {
        ...id,
        body: renamed,
        replaces: 1,
        origin: 'api',
        changedBy: 'office (k7m2p9qa)',
        changedAtMs: NOW_MS,
      },
    ]);
    expect(await bring(WRITTEN)).toEqual([
      '= site north stays as office (k7m2p9qa) changed it; the file has not changed since',
    ]);
    const moved = { ...siteBody('north', 'valley'), at: [36.5, -120.231] };
    expect(await bring({ ...WRITTEN, sites: [moved, siteBody('creek', 'valley')] })).toEqual([
      '~ site north',
      '    name: Renamed -> Site north',
      '    at[0]: 36.438 -> 36.5',
    ]);
    expect(await current()).toContain('site north r3 file');
  });

  it('that would leave a site without its limits applies in no part', async () => {
    await bring(WRITTEN);
    const other = { organisation: 'own', kind: 'site', id: 'by-api' } as const;
    await store.definitions.change([
      {
        ...other,
        body: siteBody('by-api', 'valley'),
        replaces: 0,
        origin: 'api',
        changedBy: 'office',
        changedAtMs: NOW_MS,
      },
    ]);
    const before = await current();
    const without = { limitSets: { hills: LIMITS }, sites: [siteBody('north', 'hills')], orders: [] };
    const fault = await bring(without).catch((thrown: unknown) => thrown);
    expect(fault).toBeInstanceOf(ServiceError);
    expect((fault as ServiceError).code).toBe('config_invalid');
    expect((fault as ServiceError).message).toContain('by-api');
    expect(await current()).toEqual(before);
  });

  describe('without a site where a pit burns', () => {
    const mira = { id: 'mira', name: 'Mira', role: 'crew', sites: ['creek'], ways: [] };
    const both = { ...mira, id: 'noor', name: 'Noor', sites: ['north', 'creek'] };
    const all = { ...mira, id: 'olle', name: 'Olle', sites: 'all' };
    const before = {
      ...{ limitSets: { valley: LIMITS, hills: LIMITS }, orders: [], contacts: [mira, both, all] },
      sites: [siteBody('north', 'valley'), siteBody('creek', 'hills')],
    };
    const after = {
      ...{ limitSets: { valley: LIMITS }, orders: [], contacts: [{ ...both, sites: ['north'] }] },
      sites: [siteBody('north', 'valley')],
    };
    const burns = (version: number, closedAtMs: number | null) =>
      store.watch.commit([
        {
          ...{ site: 'own/creek', replaces: version },
          burns: [burnOf('b1', { site: 'own/creek', state: closedAtMs ? 'covered' : 'lit', closedAtMs })],
        },
      ]);

    it('keeps it in force with its limits and who is told of it, says so, and takes it out after the cover', async () => {
      await bring(before);
      await burns(0, null);
      const lines = await bring(after);
      expect(lines).toEqual([
        '- contact olle',
        '= site creek stays: a pit still burns there (burn b1); a start after its cover takes it out',
        '= contact mira stays as it is for site creek, where a pit still burns',
        '= contact noor stays as it is for site creek, where a pit still burns',
        '= limit-set hills stays as it is for site creek, where a pit still burns',
      ]);
      const kept = [
        'contact mira r1 file',
        'contact noor r1 file',
        'limit-set hills r1 file',
        'limit-set valley r1 file',
        'site creek r1 file',
        'site north r1 file',
      ];
      expect((await current()).sort()).toEqual(kept);
      expect(await show(after)).toEqual(lines.slice(1));
      await burns(1, NOW_MS);
      expect((await bring(after)).filter((line) => /^[-~] /.test(line)).sort()).toEqual([
        '- contact mira',
        '- limit-set hills',
        '- site creek',
        '~ contact noor',
      ]);
    });
  });

  it('leaves the definitions of other organisations alone', async () => {
    const theirs = { organisation: 'elsewhere', kind: 'limit-set', id: 'valley', body: LIMITS } as const;
    await store.definitions.change([
      { ...theirs, replaces: 0, origin: 'file', changedBy: 'theirs.yaml', changedAtMs: NOW_MS },
    ]);
    await bring(WRITTEN);
    await bring({ limitSets: {}, sites: [], orders: [] });
    expect(await current()).toEqual(['limit-set valley r1 file']);
  });

  it('imported by several processes at once makes one revision of each', async () => {
    await Promise.all([bring(WRITTEN), bring(WRITTEN), bring(WRITTEN)]);
    expect((await current()).every((line) => line.endsWith('r1 file'))).toBe(true);
    expect(await current()).toHaveLength(4);
  });
});

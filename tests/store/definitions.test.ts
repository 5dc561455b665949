// Sites, limit sets and orders with their history, and the same request sent twice.

import { expect, it } from 'vitest';
import type { Once, OnceOutcome } from '#store/once.ts';
import { changeOf } from '../builders/store.ts';
import { NOON_MS, onEachStore } from './on-each-store.ts';

const ID = { organisation: 'fern-hollow', kind: 'site', id: 'north-block' } as const;

const request = (change: Partial<Once> = {}): Once => ({
  organisation: 'fern-hollow',
  key: 'k-1',
  requestHash: 'a'.repeat(64),
  atMs: NOON_MS,
  ...change,
});
const created: OnceOutcome = { status: 201, body: '{"revision":1}', headers: { etag: '"1"' } };

onEachStore('definitions', ({ open }) => {
  it('are kept with every revision, numbered from 1, newest first', async () => {
    const { definitions } = await open();
    const bodies = [{ name: 'a' }, { name: 'ä “quoted” \u0000 \ud83d\ude80', n: [1.5, null] }, null];
    for (const [replaces, body] of bodies.entries()) {
      const { made } = await definitions.change([changeOf('north-block', replaces, { body })]);
      expect(made).toEqual([expect.objectContaining({ ...ID, revision: replaces + 1, body })]);
    }
    const history = await definitions.history(ID);
    expect(history.map((d) => d.revision)).toEqual([3, 2, 1]);
    expect(history.map((d) => d.body)).toEqual(bodies.toReversed());
    expect(history[2]).toEqual({
      ...ID,
      revision: 1,
      body: { name: 'a' },
      origin: 'api',
      changedAtMs: NOON_MS,
      changedBy: 'office key',
    });
  });

  it('have one current revision each, those taken out included, in the order of their bytes', async () => {
    const { definitions } = await open();
    // A language's order would put b between a and C, and would not tell ö from o first.
    const ids = ['b', 'C', 'a', 'a-b', 'ab', 'ö', 'o'];
    await definitions.change(ids.map((id) => changeOf(id, 0)));
    await definitions.change([changeOf('a', 1, { body: null }), changeOf('b', 1, { body: { n: 2 } })]);
    await definitions.change([
      changeOf('a', 0, { kind: 'limit-set' }),
      changeOf('a', 0, { organisation: 'other' }),
    ]);
    const current = await definitions.current();
    expect(current.map((d) => `${d.organisation} ${d.kind} ${d.id} ${d.revision}`)).toEqual([
      'fern-hollow limit-set a 1',
      ...['C 1', 'a 2', 'a-b 1', 'ab 1', 'b 2', 'o 1', 'ö 1'].map((tail) => `fern-hollow site ${tail}`),
      'other site a 1',
    ]);
    expect(current.find((d) => d.revision === 2 && d.id === 'a')?.body).toBeNull();
  });

  it('tell which revision was in force at a moment', async () => {
    const { definitions } = await open();
    for (const replaces of [0, 1, 2]) {
      await definitions.change([changeOf('north-block', replaces, { changedAtMs: 1000 * (replaces + 1) })]);
    }
    expect(await definitions.at(ID, 999)).toBeNull();
    for (const [atMs, revision] of [
      [1000, 1],
      [1999, 1],
      [2000, 2],
      [9999, 3],
    ] as const) {
      expect((await definitions.at(ID, atMs))?.revision).toBe(revision);
    }
    expect(await definitions.at({ ...ID, id: 'elsewhere' }, 9999)).toBeNull();
    expect(await definitions.history({ ...ID, organisation: 'other' })).toEqual([]);
  });

  it('refuse a change of what is not the newest, and then change nothing at all', async () => {
    const { definitions, keys, marks } = await open();
    await definitions.change([changeOf('north-block', 0)]);
    const before = await marks();
    for (const replaces of [0, 2]) {
      const stale = definitions.change([changeOf('south-block', 0), changeOf('north-block', replaces)]);
      await expect(stale).rejects.toMatchObject({
        code: 'changed_meanwhile',
        facts: { newest: 1, replaces },
      });
    }
    expect((await definitions.current()).map((d) => d.id)).toEqual(['north-block']);
    expect(await keys.audit(10)).toHaveLength(1);
    expect((await marks()).definitions).toBe(before.definitions);
  });

  it('leave an audit row for each change', async () => {
    const { definitions, keys } = await open();
    await definitions.change([changeOf('north-block', 0)]);
    await definitions.change([changeOf('north-block', 1, { body: null })]);
    expect(await keys.audit(10)).toEqual([
      {
        atMs: NOON_MS + 1,
        organisation: 'fern-hollow',
        who: 'office key',
        what: 'definition-taken-out',
        subject: 'site north-block',
        detail: { revision: 2, origin: 'api' },
      },
      expect.objectContaining({ what: 'definition-changed', detail: { revision: 1, origin: 'api' } }),
    ]);
    expect(await keys.audit(1)).toHaveLength(1);
  });

  it('act once on a request that is sent twice, and give its first reply again', async () => {
    const { definitions, marks } = await open();
    const send = (atMs: number) =>
      definitions.change([changeOf('north-block', 0)], { request: request({ atMs }), reply: () => created });
    expect(await send(1)).toMatchObject({ made: [{ revision: 1 }], replayed: null });
    const before = (await marks()).definitions;
    expect(await send(2)).toEqual({ made: [], replayed: created });
    expect(await definitions.current()).toHaveLength(1);
    expect((await marks()).definitions).toBe(before);
  });

  it('refuse an idempotency key that came with another request; another organisation may use the same', async () => {
    const { definitions } = await open();
    const reply = () => created;
    await definitions.change([changeOf('north-block', 0)], { request: request(), reply });
    const other = { request: request({ requestHash: 'b'.repeat(64) }), reply };
    await expect(definitions.change([changeOf('south-block', 0)], other)).rejects.toMatchObject({
      code: 'key_reused',
    });
    const elsewhere = { request: request({ organisation: 'other' }), reply };
    const { replayed } = await definitions.change([changeOf('a', 0, { organisation: 'other' })], elsewhere);
    expect(replayed).toBeNull();
  });

  it('keep no reply of a request that failed, so that it may be sent again', async () => {
    const { definitions } = await open();
    const once = { request: request(), reply: () => created };
    await expect(definitions.change([changeOf('north-block', 7)], once)).rejects.toMatchObject({
      code: 'changed_meanwhile',
    });
    expect(await definitions.change([changeOf('north-block', 0)], once)).toMatchObject({ replayed: null });
  });
});

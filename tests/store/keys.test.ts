// Keys and the audit.

import { expect, it } from 'vitest';
import { auditOf, keyOf } from '../builders/store.ts';
import { onEachStore } from './on-each-store.ts';

onEachStore('keys', ({ open }) => {
  it('come back as made, with an audit row', async () => {
    const { keys } = await open();
    const full = keyOf('b1b1b1b1', { sites: ['north-block'], scopes: ['read', 'admin'], expiresAtMs: 9 });
    await keys.add(full, auditOf({ subject: 'b1b1b1b1', detail: { scopes: ['read', 'admin'] } }));
    await keys.add(keyOf('a1a1a1a1'), auditOf({ subject: 'a1a1a1a1' }));
    expect(await keys.all()).toEqual([keyOf('a1a1a1a1'), full]);
    expect(await keys.audit(1)).toEqual([auditOf({ subject: 'a1a1a1a1' })]);
    expect(await keys.audit(9)).toHaveLength(2);
  });

  it('of the same prefix or digest are refused, and leave no audit row', async () => {
    const { keys, marks } = await open();
    await keys.add(keyOf('a1a1a1a1'), auditOf());
    const before = await marks();
    for (const key of [
      keyOf('a1a1a1a1', { digest: 'x' }),
      keyOf('c1c1c1c1', { digest: keyOf('a1a1a1a1').digest }),
    ]) {
      await expect(keys.add(key, auditOf())).rejects.toMatchObject({ code: 'changed_meanwhile' });
    }
    expect(await keys.audit(9)).toHaveLength(1);
    expect(await marks()).toEqual(before);
  });

  it('are replaced whole: a key that cannot be added leaves the old one without an end', async () => {
    const { keys } = await open();
    await keys.add(keyOf('a1a1a1a1'), auditOf());
    await keys.add(keyOf('b1b1b1b1'), auditOf());
    const old = { prefix: 'a1a1a1a1', endsMs: 5000 };
    const before = (await keys.audit(9)).length;
    await expect(keys.replace(keyOf('b1b1b1b1'), old, [auditOf()])).rejects.toMatchObject({
      code: 'changed_meanwhile',
    });
    expect((await keys.all()).map((k) => k.revokedAtMs)).toEqual([null, null]);
    await keys.replace(keyOf('c1c1c1c1'), old, [auditOf(), auditOf({ what: 'key-ends' })]);
    expect((await keys.all()).map((k) => [k.prefix, k.revokedAtMs])).toEqual([
      ['a1a1a1a1', 5000],
      ['b1b1b1b1', null],
      ['c1c1c1c1', null],
    ]);
    expect((await keys.audit(9)).length).toBe(before + 2);
  });

  it('are revoked once: the earliest end stands, also one before an end set in advance', async () => {
    const { keys } = await open();
    await keys.add(keyOf('a1a1a1a1'), auditOf());
    const revoked = auditOf({ what: 'key-revoked' });
    expect(await keys.revoke('a1a1a1a1', 50, revoked)).toEqual(keyOf('a1a1a1a1', { revokedAtMs: 50 }));
    expect(await keys.revoke('a1a1a1a1', 90, revoked)).toMatchObject({ revokedAtMs: 50 });
    await keys.add(keyOf('b1b1b1b1'), auditOf());
    await keys.revoke('b1b1b1b1', 5000, revoked);
    expect(await keys.revoke('b1b1b1b1', 60, revoked)).toMatchObject({ revokedAtMs: 60 });
    expect(await keys.revoke('nothing1', 90, revoked)).toBeNull();
    expect((await keys.audit(9)).map((row) => row.what)).toEqual([
      'key-revoked',
      'key-revoked',
      'key-made',
      'key-revoked',
      'key-revoked',
      'key-made',
    ]);
  });

  it('note their last use, never an older one over a newer, and without a new mark', async () => {
    const { keys, marks } = await open();
    for (const prefix of ['a1a1a1a1', 'b1b1b1b1']) await keys.add(keyOf(prefix), auditOf());
    const before = (await marks()).keys;
    await keys.used(
      new Map([
        ['a1a1a1a1', 20],
        ['b1b1b1b1', 5],
        ['nothing1', 7],
      ]),
    );
    await keys.used(
      new Map([
        ['a1a1a1a1', 10],
        ['b1b1b1b1', 6],
      ]),
    );
    await keys.used(new Map());
    expect((await keys.all()).map((key) => key.lastUsedAtMs)).toEqual([20, 6]);
    expect((await marks()).keys).toBe(before);
  });

  it('change the mark when made and when revoked', async () => {
    const { keys, marks } = await open();
    const seen = [(await marks()).keys];
    await keys.add(keyOf('a1a1a1a1'), auditOf());
    seen.push((await marks()).keys);
    await keys.revoke('a1a1a1a1', 1, auditOf());
    seen.push((await marks()).keys);
    expect(new Set(seen).size).toBe(3);
  });
});

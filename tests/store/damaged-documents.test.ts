// A document whose row was damaged is told as damaged, and written again by the next batch that brings it.

import { DatabaseSync } from 'node:sqlite';
import { expect, it } from 'vitest';
import type { StoreAddress } from '#store/open-store.ts';
import { cellOf, documentOf } from '../builders/store.ts';
import { onDatabase } from '../postgres/fresh-database.ts';
import { onEachStore } from './on-each-store.ts';

/** What may have happened to a row: bytes that are no longer packed ones, other packed bytes, none, a false size. */
const DAMAGES = [
  ['bytes that cannot be unpacked', 'packed', `'\\x00010203'`, "x'00010203'"],
  ['the bytes of another document', 'packed', `(select packed from documents where kind = 'alerts')`, null],
  ['no bytes at all', 'packed', `''`, "x''"],
  ['a length that is too small', 'size', '1', null],
  ['the wrong kind', 'kind', `'definition'`, null],
] as const;

onEachStore('a document that was damaged', ({ address, open, kind }) => {
  const damage = async (where: StoreAddress, hash: string, column: string, value: string) => {
    const statement = `update documents set ${column} = ${value} where hash = '${hash}'`;
    if ('databaseUrl' in where) return await onDatabase(where.databaseUrl, statement);
    const other = new DatabaseSync(where.sqliteFile);
    other.exec(statement);
    other.close();
  };

  it.each(DAMAGES)('to %s is mended by the next batch that brings it', async (_, column, here, there) => {
    const where = await address();
    const store = await open(where);
    const document = documentOf('x'.repeat(5000));
    const sound = documentOf('y'.repeat(5000));
    await store.commit({ documents: [document, sound, documentOf('[]', 'alerts')] });
    await damage(where, document.hash, column, kind === 'sqlite' ? (there ?? here) : here);
    const fault = await store.documents.read(document.hash).then(
      (read) => read?.kind,
      (thrown: unknown) => thrown,
    );
    expect(fault).toEqual(
      column === 'kind' ? 'definition' : expect.objectContaining({ facts: { cause: 'damaged' } }),
    );
    // Pulled again, as the newest document of a cell.
    const cells = [cellOf('BMX 59,84', { document: document.hash })];
    await store.commit({ documents: [document, sound], cells });
    for (const { hash, bytes } of [document, sound]) {
      const read = await store.documents.read(hash);
      expect([read?.kind, Buffer.from(read?.bytes ?? []).equals(bytes)]).toEqual(['gridpoint', true]);
    }
    expect((await store.care.sizes()).rows['documents']).toBe(3);
  });

  it('is left as it is by a batch that does not bring it', async () => {
    const where = await address();
    const store = await open(where);
    const document = documentOf('x'.repeat(5000));
    await store.commit({ documents: [document] });
    await damage(where, document.hash, 'size', '1');
    await store.commit({ cells: [cellOf('BMX 59,84', { document: document.hash })] });
    await expect(store.documents.read(document.hash)).rejects.toMatchObject({ facts: { cause: 'damaged' } });
  });
});

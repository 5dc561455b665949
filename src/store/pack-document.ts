// Documents as they are kept: compressed, under the hash of what they were.

import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { constants, zstdCompress, zstdDecompress } from 'node:zlib';
import { ServiceError } from '#errors.ts';
import { damaged } from './damaged.ts';
import type { NewDocument } from './document.ts';

const LEVEL = 9;

const compress = promisify(zstdCompress);
const decompress = promisify(zstdDecompress);

export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

export interface PackedDocument {
  readonly hash: string;
  readonly kind: string;
  readonly size: number;
  readonly packed: Uint8Array;
}

export async function packDocument({ hash, kind, bytes }: NewDocument): Promise<PackedDocument> {
  if (hashOf(bytes) !== hash) {
    throw new ServiceError('internal', `a document was given under ${hash}, which is not its hash`);
  }
  const packed = await compress(bytes, { params: { [constants.ZSTD_c_compressionLevel]: LEVEL } });
  return { hash, kind, size: bytes.byteLength, packed };
}

/** Throws ServiceError `store_unavailable`, cause `damaged`, where the bytes are not those that were kept. */
export async function unpackDocument({ hash, size, packed }: PackedDocument): Promise<Uint8Array> {
  let bytes: Uint8Array;
  try {
    bytes = await decompress(packed, { maxOutputLength: Math.max(1, size) });
  } catch (cause) {
    throw damaged(`document ${hash} cannot be unpacked`, cause);
  }
  if (hashOf(bytes) !== hash) throw damaged(`document ${hash} is not what was kept`);
  return bytes;
}

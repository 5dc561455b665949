// Whose page it is, as a phone may know it: pages kept for one reader are never shown to another.

import { createHash } from 'node:crypto';
import type { Viewer } from '#publish/viewer.ts';

/** Tells nothing of the key. */
export const readerTag = ({ organisation, key }: Viewer): string =>
  createHash('sha256')
    .update(`${organisation} ${key ?? ''}`)
    .digest('base64url')
    .slice(0, 12);

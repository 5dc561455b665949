// Why the store cannot, for people; nothing of where it is.

import type { StoreCause } from './store-health.ts';

export const CAUSE_SENTENCES: Readonly<Record<StoreCause, string>> = {
  'disk-full': 'the disk of the store is full',
  'read-only': 'the store may not be written',
  locked: 'another program holds the store',
  'connection-lost': 'the database cannot be reached',
  'too-slow': 'the database does not answer in time',
  damaged: 'the store is damaged',
  closed: 'the store is closed',
  other: 'the store failed',
};

// Every change of the tables in its order. A migration that was ever released is never edited: write the next one. It
// may add tables, and columns that have a default, so that a program of the version before goes on working beside.

import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import { first } from './0001-first.ts';
import { watch } from './0002-watch.ts';
import { stood } from './0003-stood.ts';
import { briefings } from './0004-briefings.ts';
import { putOff } from './0005-put-off.ts';
import { receipts } from './0006-receipts.ts';
import { events } from './0007-events.ts';
import { hooks } from './0008-hooks.ts';
import { calendar } from './0009-calendar.ts';
import { cap } from './0010-cap.ts';

export const migrationsFor = (types: ColumnTypes): Record<string, Migration> => ({
  '0001-first': first(types),
  '0002-watch': watch(types),
  '0003-stood': stood(types),
  '0004-briefings': briefings(types),
  '0005-put-off': putOff(),
  '0006-receipts': receipts(types),
  '0007-events': events(types),
  '0008-hooks': hooks(types),
  '0009-calendar': calendar(types),
  '0010-cap': cap(types),
});

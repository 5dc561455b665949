// How much is open now, for whoever watches the service: counts alone, since a storm leaves thousands of each.

import { sql } from 'kysely';
import type { DatabaseAccess } from '#store/access.ts';
import type { WatchFigures, WatchRecords } from './records.ts';

export const createWatchFigures =
  ({ reading }: DatabaseAccess): WatchRecords['figures'] =>
  (sinceMs) =>
    reading(async (db): Promise<WatchFigures> => {
      const burns = await db
        .selectFrom('burns')
        .select((e) => e.fn.countAll().as('count'))
        .where('closedAtMs', 'is', null)
        .executeTakeFirstOrThrow();
      // A notice is named `site code subject`, and no site has a space.
      const notices = await db
        .selectFrom('notices')
        .select(sql<string>`substr(${sql.ref('key')}, length(${sql.ref('site')}) + 2)`.as('about'))
        .where('phase', 'in', ['raised', 'unsure', 'clearing'])
        .execute();
      const undelivered = await db
        .selectFrom('deliveries')
        .select((e) => ['outcome', e.fn.countAll().as('count')])
        .where('dueAtMs', '>=', sinceMs)
        .where('outcome', 'in', ['failed', 'uncertain', 'expired'])
        .groupBy('outcome')
        .execute();
      const codes = Map.groupBy(notices, ({ about }) => about.split(' ', 1)[0] ?? '');
      return {
        openBurns: Number(burns.count),
        noticesByCode: new Map([...codes].map(([code, all]) => [code, all.length])),
        undelivered: new Map(undelivered.map(({ outcome, count }) => [outcome ?? '', Number(count)])),
      };
    });

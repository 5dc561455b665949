// The pace at which many processes together may ask a host. One row says when all turns given out so far are used up; one
// statement takes the next. By the database's clock, since those of the processes differ.

import { sql } from 'kysely';
import type { DatabaseAccess } from './access.ts';
import type { PaceRecords } from './store.ts';

/** So many may wait for their turn. A clock that was set back would leave everybody waiting for it to catch up. */
const MOST_WAITING = 120;

export function createPaces({ database, writing }: DatabaseAccess): PaceRecords {
  const now = database.clockMs;
  return {
    next: (host, { burst, everyMs }) =>
      writing('paces', async (transaction) => {
        const mostMs = (burst + MOST_WAITING) * everyMs;
        const { rows } = await sql<{ aheadMs: number }>`
          insert into counters (name, value) values (${`pace ${host}`}, ${now} + ${everyMs})
          on conflict (name) do update set value = ${everyMs} + case
            when counters.value < ${now} then ${now}
            when counters.value > ${now} + ${mostMs} then ${now} + ${mostMs}
            else counters.value end
          returning value - ${now} - ${everyMs} as ahead_ms`.execute(transaction);
        return Math.max(0, (rows[0]?.aheadMs ?? 0) - (burst - 1) * everyMs);
      }),
  };
}

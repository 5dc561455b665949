// What calendars were told: written when it is told, so that a change that nobody has seen counts for none.

import type { Transaction } from 'kysely';
import type { CalendarWindow } from '#core/plan/calendar-windows.ts';
import type { DatabaseAccess } from './access.ts';
import { chunks } from './chunks.ts';
import type { CalendarRecords } from './store.ts';
import type { Tables } from './tables.ts';

export function createCalendar({ reading, writing }: DatabaseAccess): CalendarRecords {
  return {
    windows: (sites, endsAfterMs) =>
      reading(async (db) => {
        const rows: CalendarWindow[] = [];
        for (const some of chunks(sites)) {
          const found = await db
            .selectFrom('calendarWindows')
            .selectAll()
            .where('site', 'in', some)
            .where('toMs', '>', endsAfterMs)
            .orderBy('site')
            .orderBy('date')
            .orderBy('number')
            .execute();
          rows.push(...found.map((row) => ({ ...row, cancelled: row.cancelled === 1 })));
        }
        return rows;
      }),
    async keep(changed) {
      try {
        await writing('states', async (transaction) => {
          // In one order, so that two who keep the same do not stand in each other's way.
          const inOrder = changed.toSorted((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1));
          for (const window of inOrder) await keepOne(transaction, window);
        });
        return true;
      } catch (fault) {
        if (fault === MEANWHILE) return false;
        throw fault;
      }
    },
  };
}

/** Another process has told another one meanwhile. */
const MEANWHILE = new Error('told otherwise meanwhile');

const nameOf = ({ site, date, number }: CalendarWindow): string => `${site} ${date} ${number}`;

async function keepOne(
  transaction: Transaction<Tables>,
  { cancelled, ...window }: CalendarWindow,
): Promise<void> {
  const row = { ...window, cancelled: cancelled ? 1 : 0 };
  const { site, date, number, uid, sequence } = row;
  const count =
    sequence === 0
      ? (
          await transaction
            .insertInto('calendarWindows')
            .values(row)
            .onConflict((c) => c.columns(['site', 'date', 'number']).doNothing())
            .executeTakeFirst()
        ).numInsertedOrUpdatedRows
      : (
          await transaction
            .updateTable('calendarWindows')
            .set(row)
            .where('site', '=', site)
            .where('date', '=', date)
            .where('number', '=', number)
            .where('uid', '=', uid)
            .where('sequence', '=', sequence - 1)
            .executeTakeFirst()
        ).numUpdatedRows;
  if (Number(count ?? 0) !== 1) throw MEANWHILE;
}

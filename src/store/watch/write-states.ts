// What replaces what was known before: burns, notices, silences, and who opted out.

import type { Transaction } from 'kysely';
import type { Notice } from '#core/notices/notice.ts';
import type { Silence } from '#core/notices/silence.ts';
import { chunks } from '#store/chunks.ts';
import { toJson } from '#store/json.ts';
import type { Tables } from '#store/tables.ts';
import type { OptOut, WatchPatch } from './records.ts';

export async function putBurns(
  transaction: Transaction<Tables>,
  { site, burns = [] }: WatchPatch,
): Promise<void> {
  for (const burn of burns) {
    const state = { openedAtMs: burn.openedAtMs, closedAtMs: burn.closedAtMs, body: toJson(burn) };
    await transaction
      .insertInto('burns')
      .values({ site, id: burn.id, ...state })
      .onConflict((c) => c.columns(['site', 'id']).doUpdateSet(state))
      .execute();
  }
}

export async function putNotices(
  transaction: Transaction<Tables>,
  notices: readonly Notice[],
): Promise<void> {
  for (const some of chunks(notices)) {
    await transaction
      .insertInto('notices')
      .values(
        some.map((n) => ({
          key: n.key,
          site: n.site,
          phase: n.phase,
          episode: n.episode,
          steppedAtMs: n.steppedAtMs,
          body: toJson(n),
        })),
      )
      .onConflict((c) =>
        c.column('key').doUpdateSet((e) => ({
          phase: e.ref('excluded.phase'),
          episode: e.ref('excluded.episode'),
          steppedAtMs: e.ref('excluded.steppedAtMs'),
          body: e.ref('excluded.body'),
        })),
      )
      .execute();
  }
}

/** One that was ended is never changed again, so that none comes back. */
export async function putSilences(
  transaction: Transaction<Tables>,
  silences: readonly Silence[],
): Promise<void> {
  for (const silence of silences) {
    const state = { untilMs: silence.untilMs, endedAtMs: silence.endedAtMs, body: toJson(silence) };
    await transaction
      .insertInto('silences')
      .values({ id: silence.id, site: silence.site, ...state })
      .onConflict((c) => c.column('id').doUpdateSet(state).where('silences.endedAtMs', 'is', null))
      .execute();
    if (silence.endedAtMs !== null) await letGo(transaction, silence.site);
  }
}

/** What was held back untried is due at once; what another silence still covers is held back again as it is looked at. */
async function letGo(transaction: Transaction<Tables>, site: string): Promise<void> {
  await transaction
    .updateTable('deliveries')
    .set({ notBeforeMs: null })
    .where('site', '=', site)
    .where('outcome', 'is', null)
    .where('triedAtMs', 'is', null)
    .where('notBeforeMs', 'is not', null)
    .execute();
}

export async function setOptOuts(
  transaction: Transaction<Tables>,
  optOuts: readonly OptOut[],
): Promise<void> {
  for (const { organisation, contact, address, word, optedOutAtMs } of optOuts) {
    if (optedOutAtMs === null) {
      await transaction
        .deleteFrom('optOuts')
        .where('organisation', '=', organisation)
        .where('contact', '=', contact)
        .execute();
      continue;
    }
    await transaction
      .insertInto('optOuts')
      .values({ organisation, contact, address, optedOutAtMs, word })
      .onConflict((c) => c.columns(['organisation', 'contact']).doUpdateSet({ address, optedOutAtMs, word }))
      .execute();
  }
}

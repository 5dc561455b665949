// Until when a sheet of paper may be used. It cannot learn that nothing newer came: so it ends with the age at which its own
// forecast gives no go any more, whatever is published later.

import { MINUTE_MS } from '#core/units/time.ts';
import { msOf } from '#publish/page/moments.ts';
import type { SiteView } from '#publish/page/site-view.ts';
import { isTrusted } from '#publish/page/standing.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import { momentText } from '#publish/wording/show.ts';

export interface SheetVoid {
  /** Void already: no sheet to light by. */
  readonly isVoid: boolean;
  readonly title: string;
  readonly notes: readonly string[];
}

/** When the forecast is too old [epoch ms]; null where it does not say when it was made. */
export const voidAfterMs = (madeAt: string | null, holdAfterMin: number): number | null =>
  madeAt === null ? null : msOf(madeAt) + holdAfterMin * MINUTE_MS;

export function voidOf({ plan, forecast, nowMs, reader }: SiteView, holdAfterMin: number): SheetVoid {
  const own = sheetWords(reader.language);
  const atMs = voidAfterMs(plan.madeAt, holdAfterMin);
  if (atMs === null || atMs <= nowMs || !isTrusted(plan, forecast, nowMs))
    return { isVoid: true, title: own.voidNow, notes: [] };
  const at = (ms: number): string => momentText(ms, plan.timeZone, reader.language, null);
  const next = forecast.nextDueAt === null ? [] : [own.nextDue(at(msOf(forecast.nextDueAt)))];
  const isEarly = plan.lightUp !== null && atMs <= msOf(plan.lightUp);
  return {
    isVoid: false,
    title: own.voidAfter(at(atMs)),
    notes: [[own.voidOnText, ...next].join('; '), ...(isEarly ? [own.voidBeforeLight] : [])],
  };
}

// A plan's times as words: each with its date where that is another than the day's, and the pauses always beside them.

import type { PlanAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { type Language, momentText } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';
import { msOf } from './moments.ts';
import type { NowWindow } from './standing.ts';

/** "4:30 am"; after the midnight of a night shift "Thu, Nov 26, 4:30 am". */
export const timeOf = (instant: string, plan: PlanAnswer, language: Language): string =>
  momentText(msOf(instant), plan.timeZone, language, plan.day);

/** ", no wood 11:00 am to 12:00 pm" for each pause; empty where there is none. */
export const pausesText = (plan: PlanAnswer, language: Language): string =>
  plan.pauses.map((p) => `, ${pauseText(p, plan, language)}`).join('');

export const pauseText = (
  { from, to }: PlanAnswer['pauses'][number],
  plan: PlanAnswer,
  language: Language,
): string => wordsFor(language).noWood(timeOf(from, plan, language), timeOf(to, plan, language));

/** "Light-up from 9:00 am, no wood 11:00 am to 12:00 pm, last charge 1:30 pm"; null where the day has no burn. */
export function burnText(plan: PlanAnswer, language: Language): string | null {
  const { labels } = wordsFor(language);
  const { lightUp, lastCharge } = plan;
  if (lightUp === null || lastCharge === null) return null;
  const at = (instant: string) => timeOf(instant, plan, language);
  return `${labels.lightUp} ${at(lightUp)}${pausesText(plan, language)}, ${lowerFirst(labels.lastCharge)} ${at(lastCharge)}`;
}

/** The sentence for a fire that may be charged but no longer lit: until the end of the go of this moment, where it is told. */
export const lateText = (plan: PlanAnswer, language: Language, now?: NowWindow | null): string =>
  wordsFor(language).tooLateToLight(msOf(endOfGo(now) ?? plan.lastCharge ?? plan.workedOutAt), {
    language,
    units: plan.units,
    timeZone: plan.timeZone,
    day: plan.day,
  });

const endOfGo = (now: NowWindow | null | undefined): string | null => (now?.verdict === 'go' ? now.to : null);

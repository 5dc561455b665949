// What the watch of a site goes by, where its operator writes something else than the defaults.

import { z } from 'zod';
import { DAY_TEXT_TIMES, type DayTextTimes } from '#core/notices/day-texts.ts';
import { DEFAULT_WATCH, type WatchSettings } from '#core/watch/watch-settings.ts';
import { chosen, clockTime, minutes, quantity, verdict } from './fields.ts';

const speed = quantity('speed')
  .transform(({ value }) => value)
  .refine((mps) => mps >= 0, 'expected a figure that is not negative');
const advice = z.enum(['advice', 'hold', 'stop'], 'expected advice, hold or stop');
const angle = z.number().min(5).max(180);

const shift = z.strictObject({
  definition: z.enum(['ours', 'fmh-1'], 'expected ours or fmh-1').optional(),
  atLeast: angle.optional(),
  within: minutes.optional(),
  atLeastSpeed: speed.optional(),
  baseline: minutes.optional(),
  persist: minutes.optional(),
  verdict: advice.optional(),
});

export const watchFields = z.strictObject({
  shift: shift.optional(),
  /** From the direction that the crew was briefed on, however slowly. */
  drift: z.strictObject({ atLeast: angle.optional() }).optional(),
  thunder: z.strictObject({ clearsFor: minutes.optional(), verdict: verdict.optional() }).optional(),
  /** A time of the plan that moves by so much is told. */
  planMoved: minutes.optional(),
  chargeSoon: minutes.optional(),
  lookAgain: z
    .strictObject({ days: z.array(z.int().min(1).max(30)).max(10).optional(), at: clockTime.optional() })
    .optional(),
  /** Where nobody observes at the site: go by the forecast, or hold; accepted: also where stations are written down and none is in reach. */
  unobserved: z.enum(['forecast', 'hold', 'accepted'], 'expected forecast, hold or accepted').optional(),
});

export type WatchFields = z.output<typeof watchFields>;

const textTime = chosen((value): z.ZodType<string> => (value === 'none' ? z.literal('none') : clockTime));

/** When the evening text and the dawn text of a site go out, on its own clock; `none`: not at all. */
export const dayTextFields = z.strictObject({
  evening: textTime.optional(),
  dawn: textTime.optional(),
});

export type DayTextFields = z.output<typeof dayTextFields>;

export function watchSettings(fields: WatchFields = {}): WatchSettings {
  const { shift: s, drift, thunder, lookAgain } = fields;
  const base = DEFAULT_WATCH;
  return {
    ...base,
    shift: {
      ...base.shift,
      definition: s?.definition ?? base.shift.definition,
      atLeastDeg: s?.atLeast ?? base.shift.atLeastDeg,
      withinMin: s?.within ?? base.shift.withinMin,
      atLeastMps: s?.atLeastSpeed ?? base.shift.atLeastMps,
      baselineMin: s?.baseline ?? base.shift.baselineMin,
      persistMin: s?.persist ?? base.shift.persistMin,
      verdict: s?.verdict === 'advice' ? 'go' : (s?.verdict ?? base.shift.verdict),
    },
    drift: { ...base.drift, atLeastDeg: drift?.atLeast ?? base.drift.atLeastDeg },
    thunder: {
      clearsForMin: thunder?.clearsFor ?? base.thunder.clearsForMin,
      verdict: thunder?.verdict ?? base.thunder.verdict,
    },
    plan: { ...base.plan, movedMin: fields.planMoved ?? base.plan.movedMin },
    burn: {
      chargeSoonMin: fields.chargeSoon ?? base.burn.chargeSoonMin,
      lookAgainDays: lookAgain?.days ?? base.burn.lookAgainDays,
      lookAgainAt: lookAgain?.at ?? base.burn.lookAgainAt,
    },
    unobserved: fields.unobserved ?? base.unobserved,
  };
}

export function dayTextTimes(fields: DayTextFields = {}): DayTextTimes {
  const at = (given: string | undefined, usual: string | null): string | null =>
    given === 'none' ? null : (given ?? usual);
  return {
    evening: at(fields.evening, DAY_TEXT_TIMES.evening),
    dawn: at(fields.dawn, DAY_TEXT_TIMES.dawn),
    lateMs: DAY_TEXT_TIMES.lateMs,
  };
}

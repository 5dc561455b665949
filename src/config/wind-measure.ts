// How high a wind is measured, and over how long: of an instrument, and of a limit.

import { z } from 'zod';
import type { ElementLimit, SideBounds, WindMeasure } from '#core/score/limit.ts';
import { FORECAST_WIND } from '#core/score/limit.ts';
import { minutes, quantity } from './fields.ts';

export const heightM = quantity('length')
  .transform((b) => b.value)
  .refine((m) => m >= 0.5 && m <= 200, 'expected a height above ground from 0.5 m to 200 m');

/** `3 s`, `2 min`. */
export const averagingS = z
  .union([z.string(), z.number()])
  .transform((text, context) => {
    const seconds = /^\s*(\d+(?:\.\d+)?)\s*s\s*$/.exec(String(text));
    const parsed = seconds ? Number(seconds[1]) : minutes.safeParse(text).data;
    if (parsed !== undefined) return seconds ? parsed : parsed * 60;
    context.addIssue({ code: 'custom', message: 'expected a length of time such as "3 s" or "2 min"' });
    return z.NEVER;
  })
  .refine((s) => s >= 1 && s <= 3_600, 'expected a length of time from 1 s to 1 h');

interface Written {
  readonly height?: number | undefined;
  readonly averaging?: number | undefined;
}

/** Null where the limit says nothing: then it means what the forecast is of. */
export const windMeasureOf = ({ height, averaging }: Written): WindMeasure | null =>
  height === undefined && averaging === undefined
    ? null
    : {
        heightM: height ?? FORECAST_WIND.heightM,
        averagingS: averaging ?? FORECAST_WIND.averagingS,
      };

/**
 * The forecast is judged by the figure as it is written, which must then be the stricter: a wind is weaker nearer to the ground
 * and over a longer time. What would be the laxer is a fault.
 */
export function windMeasureFaults(
  element: ElementLimit['element'],
  { height, averaging }: Written,
  low: SideBounds | null,
  high: SideBounds | null,
): { message: string; path: string[] }[] {
  const faults: { message: string; path: string[] }[] = [];
  const fault = (key: string, message: string) => faults.push({ message, path: [key] });
  if (height !== undefined && element !== 'windSpeed' && element !== 'windGust')
    fault('height', 'only a limit on windSpeed or windGust has a height');
  else if (height !== undefined && high !== null && height > FORECAST_WIND.heightM)
    fault('height', 'the forecast is of 10 m: an atMost above that would be judged by a weaker wind');
  else if (height !== undefined && low !== null && height < FORECAST_WIND.heightM)
    fault('height', 'the forecast is of 10 m: an atLeast below that would be judged by a stronger wind');
  if (averaging !== undefined && element !== 'windSpeed')
    fault('averaging', 'only a limit on windSpeed has an averaging time');
  else if (averaging !== undefined && high !== null && averaging < FORECAST_WIND.averagingS)
    fault(
      'averaging',
      'the forecast is a mean of 2 min: an atMost over less would be judged by a weaker wind',
    );
  else if (averaging !== undefined && low !== null && averaging > FORECAST_WIND.averagingS)
    fault(
      'averaging',
      'the forecast is a mean of 2 min: an atLeast over more would be judged by a stronger wind',
    );
  return faults;
}

// A reading as somebody posts it: by the API, over MQTT, or on the form for hand-held meters. What it means is read in
// posted-observation.ts.

import { z } from 'zod';
import { parseTypedInstantMs } from '#core/units/local-time.ts';
import { told, toldPressure, toldSpan } from './posted-quantity.ts';

const instant = z
  .string()
  .max(60)
  .transform((text, context) => {
    const ms = parseTypedInstantMs(text);
    if (ms !== null) return ms;
    context.addIssue({
      code: 'custom',
      message: 'expected an RFC 3339 instant with offset, for example 2026-03-02T14:05:00-06:00',
    });
    return z.NEVER;
  });

export const postedReading = z.strictObject({
  /** As the configuration of the site calls it. */
  station: z.string().min(1).max(63),
  /** When it was measured: the end of its averaging period. Never when it was sent. */
  time: instant,
  windSpeed: told('speed').nullish(),
  /** FROM which it blows, in degrees. Null: the instrument does not say. */
  windDirection: z
    .union(
      [z.number(), z.literal('calm'), z.literal('variable')],
      'expected degrees from 0 to 360, "calm", "variable" or null',
    )
    .nullish(),
  windGust: told('speed').nullish(),
  /** Above ground, and over how long the wind is a mean; where left out, what the configuration says of the station. */
  windHeight: told('length').nullish(),
  windAveraging: toldSpan.nullish(),
  /** What the direction refers to; where left out, what the configuration says of the station. */
  reference: z.enum(['true', 'magnetic', 'relative'], 'expected "true", "magnetic" or "relative"').nullish(),
  relativeHumidity: told('percent').nullish(),
  temperature: told('temperature').nullish(),
  dewPoint: told('temperature').nullish(),
  pressure: toldPressure.nullish(),
  /** Thunder heard or lightning seen. */
  thunder: z.boolean().nullish(),
  quality: z.enum(['passed', 'unverified', 'doubtful']).nullish(),
  /** True: it replaces what was told before for the same station and moment. */
  corrects: z.boolean().nullish(),
});

export type PostedReading = z.output<typeof postedReading>;

/** So many readings in one body; more are refused. */
export const MOST_READINGS = 500;

/** One reading, a list, or `{ "observations": [ … ] }`; null where it is none of these, or too many. */
export function readingsIn(body: unknown): readonly unknown[] | null {
  const list = listIn(body);
  if (list !== null) return list.length > 0 && list.length <= MOST_READINGS ? list : null;
  return typeof body === 'object' && body !== null ? [body] : null;
}

function listIn(body: unknown): readonly unknown[] | null {
  if (Array.isArray(body)) return body;
  if (typeof body !== 'object' || body === null || !('observations' in body)) return null;
  const { observations } = body;
  return Array.isArray(observations) && Object.keys(body).length === 1 ? observations : [];
}

// What every published answer begins with.

import { z } from 'zod';

export const instant = z.string().describe('RFC 3339 with the offset of the site, to the second');

export const head = {
  site: z.string(),
  name: z.string(),
  timeZone: z.string(),
  madeAt: instant.nullable().describe("the forecast document's own update time"),
  fetchedAt: instant.describe('when this content was first received'),
  alertsReadAt: instant.nullable().describe('when the official alerts were last read'),
  workedOutAt: instant.describe('the moment as of which this was judged'),
  goodUntil: instant.nullable().describe('void after this moment, even where nothing new was published'),
  stale: z
    .boolean()
    .describe('true where the forecast or the official alerts are too old, undated or unread to give go'),
  demo: z.boolean(),
  madeFrom: z
    .object({
      definition: z.string(),
      document: z.string(),
      alerts: z.string(),
      pointTimeZone: z.string(),
    })
    .nullable()
    .describe(
      'SHA-256 of the kept site definition, forecast document and list of alerts: with `workedOutAt` and the question they give these bytes again; null where nothing is kept',
    ),
  units: z.enum(['us', 'si']),
  lang: z.enum(['en', 'es']),
  caution: z.string(),
};

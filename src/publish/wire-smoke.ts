// The published contract of the search for a smoke's source, version 1. Fields may be added; none is renamed, removed or given
// another meaning.

import { z } from 'zod';
import { instant } from './wire-head.ts';
import { tapKind } from './wire-watch.ts';

export const smokeSchema = z
  .object({
    kind: z
      .enum(['toward', 'calm', 'variable', 'light', 'stale', 'missing'])
      .describe(
        'toward: a sector; all others have none. light: too little wind to say; stale: the forecast is too old to go by; missing: nobody says',
      ),
    toward: z.number().nullable().describe('where it goes to, degrees clockwise from true north'),
    halfWidth: z.number().nullable().describe('of the sector on either side, degrees'),
    windSpeedMps: z.number().nullable(),
    source: z.enum(['observed', 'forecast']).nullable().describe('null where nobody says'),
    station: z.string().nullable(),
    at: instant.nullable().describe('of the newest reading, or the beginning of the forecast hour'),
    madeAt: instant.nullable().describe('of the forecast'),
    text: z.string().describe('where it goes and who says so'),
  })
  .meta({ id: 'Smoke' });

const why = z
  .enum([
    'sector',
    'at-the-pit',
    'calm',
    'variable',
    'light',
    'stale',
    'missing',
    'earlier-wind',
    'no-place',
    'covered',
    'outside',
  ])
  .describe(
    'sector: covers the place; at-the-pit: so near that no direction counts; covered: its smoke went there, but the pit was covered by then; earlier-wind: so far away that smoke of before the last hour may be there; no-place: its site is not in force any more, so that nobody can say where it lies; outside: its smoke went elsewhere; the others: nobody can say where it went',
  );

export const smokeSourceSchema = z
  .object({
    site: z.string(),
    name: z.string(),
    timeZone: z.string(),
    burn: z.string(),
    state: tapKind.describe('at the moment asked for'),
    litAt: instant.nullable(),
    coveredAt: instant.nullable(),
    at: z
      .tuple([z.number(), z.number()])
      .nullable()
      .describe(
        'of the pit: degrees north, degrees east; null, as all that follows from it, with `no-place`',
      ),
    distanceM: z.number().nullable(),
    bearing: z.number().nullable().describe('from the pit to the place, degrees clockwise from true north'),
    backBearing: z.number().nullable().describe('from the place to the pit'),
    why,
    beside: z.number().nullable().describe('how far the place lies beside the middle of the sector, degrees'),
    smoke: smokeSchema.nullable().describe('the one that decides, of the last hour before the moment'),
    permit: z.object({ number: z.string(), issuer: z.string().nullable() }).nullable(),
    phone: z.string().nullable(),
    text: z.string(),
  })
  .meta({ id: 'SmokeSource' });

const list = z.array(smokeSourceSchema);

export const smokeSourcesSchema = z
  .object({
    at: z.tuple([z.number(), z.number()]).describe('the place asked for: degrees north, degrees east'),
    time: instant.describe('the moment asked for, in the time of the nearest site'),
    timeZone: z.string().describe('of the nearest site'),
    asOf: instant,
    covers: list.describe('the likeliest first: by distance, at the edge of a sector as from twice as far'),
    cannotExclude: list.describe(
      'by distance, those of which nobody can say where they lie at the end; what is missing never excludes a burn',
    ),
    outside: list.describe('by distance'),
    beyond: z.int().describe('open burns farther away than is looked'),
    reachM: z.number().describe('how far is looked'),
    nearestSiteM: z.number().nullable().describe('to the nearest site, whether it burns or not'),
    demo: z.boolean(),
    caution: z.string(),
  })
  .meta({ id: 'SmokeSources' });

export type SmokeAnswer = z.output<typeof smokeSchema>;
export type SmokeSourceAnswer = z.output<typeof smokeSourceSchema>;
export type SmokeSourcesAnswer = z.output<typeof smokeSourcesSchema>;

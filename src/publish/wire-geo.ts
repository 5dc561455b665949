// The published contract of what maps are drawn from, version 1: GeoJSON (RFC 7946). Properties may be added; none is renamed,
// removed or given another meaning.

import { z } from 'zod';
import { forecastStateSchema } from './wire.ts';
import { NOTICE_MAP_EXAMPLE, SITE_MAP_EXAMPLE, SMOKE_MAP_EXAMPLE } from './wire-examples.ts';
import { instant } from './wire-head.ts';
import { smokeSchema } from './wire-smoke.ts';
import { noticeSchema, tapKind } from './wire-watch.ts';

const position = z.tuple([z.number(), z.number()]).describe('degrees east, degrees north, WGS 84');
const ring = z.array(position);

const point = z.object({ type: z.literal('Point'), coordinates: position });
const area = [
  z.object({ type: z.literal('Polygon'), coordinates: z.array(ring) }),
  z
    .object({ type: z.literal('MultiPolygon'), coordinates: z.array(z.array(ring)) })
    .describe('cut at the antimeridian'),
];

const verdict = z.enum(['go', 'hold', 'stop']);

const collectionOf = <G extends z.ZodType, P extends z.ZodType>(
  id: string,
  geometry: G,
  properties: P,
  example: object,
) =>
  z
    .object({
      type: z.literal('FeatureCollection'),
      features: z.array(z.object({ type: z.literal('Feature'), id: z.string(), geometry, properties })),
      asOf: instant,
      demo: z.boolean(),
      caution: z.string(),
    })
    .meta({ id, examples: [example] });

export const siteMapSchema = collectionOf(
  'SiteMap',
  point,
  z.object({
    site: z.string(),
    name: z.string(),
    timeZone: z.string().nullable(),
    externalRef: z.string().nullable(),
    day: z.string().nullable().describe('the date that the times are of; null where nothing is known yet'),
    verdict: verdict.describe(
      'of today, the worse of plan and watch. go: there is or was time for it today, see the times; hold where nobody can say',
    ),
    unknown: z.boolean().describe('true where the verdict is hold because nobody can say'),
    lightUp: instant.nullable(),
    lightUpBy: instant.nullable(),
    lastCharge: instant.nullable(),
    coveredBy: instant.nullable(),
    burn: tapKind.nullable().describe('state of the burn that is open; null: nothing burns'),
    forecast: forecastStateSchema,
  }),
  SITE_MAP_EXAMPLE,
);

export const smokeMapSchema = collectionOf(
  'SmokeMap',
  z
    .union([...area, point, z.null()])
    .describe(
      'a sector where there is one; the pit alone where nobody can say which way, which is anywhere; null where nobody knows where it lies',
    ),
  z.object({
    site: z.string(),
    name: z.string(),
    burn: z.string(),
    state: tapKind,
    smoke: smokeSchema.nullable(),
    reachM: z.number().nullable().describe('how far the sector is drawn; smoke may go farther'),
  }),
  SMOKE_MAP_EXAMPLE,
);

export const noticeMapSchema = collectionOf(
  'NoticeMap',
  point.describe('of the pit'),
  noticeSchema.extend({ name: z.string().describe('of the site') }),
  NOTICE_MAP_EXAMPLE,
);

export type SiteMapAnswer = z.output<typeof siteMapSchema>;
export type SmokeMapAnswer = z.output<typeof smokeMapSchema>;
export type NoticeMapAnswer = z.output<typeof noticeMapSchema>;

// The published contract, version 1. Mapped by hand from the core, so that a rename inside cannot break anyone outside.
// Fields may be added; none is renamed, removed or given another meaning.

import { z } from 'zod';
import { head, instant } from './wire-head.ts';

const verdict = z
  .enum(['go', 'hold', 'stop'])
  .describe(
    'go: may light and may charge. hold: do not light; if lit, add no wood, keep the curtain up and the pit attended. stop: no fire: put it down and cover.',
  );

const standing = z.enum(['none', 'ahead', 'light', 'charge', 'pause', 'over']);

export const reasonSchema = z
  .object({
    code: z.string().describe('stable code of what was found'),
    verdict,
    from: instant,
    to: instant,
    element: z.string().optional(),
    value: z.number().optional().describe('in `unit`, of the hour farthest beyond its bound'),
    bound: z.number().optional().describe('in `unit`'),
    unit: z.string().optional(),
    side: z.enum(['atLeast', 'atMost']).optional(),
    at: instant.optional().describe('the hour that `value` belongs to'),
    room: z.number().optional().describe('signed distance to the bound in `unit`; negative beyond it'),
    roomFraction: z.number().optional(),
    derived: z.boolean().optional().describe('true where the value was derived from other elements'),
    category: z.int().optional(),
    source: z.string().optional().describe('whose figure the bound is'),
    unknown: z.boolean().describe('true where the verdict is hold because nobody can say'),
    figures: z.record(z.string(), z.unknown()).optional().describe('further figures, by code'),
    text: z.string(),
  })
  .meta({ id: 'Reason' });

export const tightestSchema = z
  .object({
    element: z.string(),
    class: z.enum(['go', 'hold', 'stop']),
    at: instant,
    value: z.number(),
    bound: z.number(),
    unit: z.string(),
    side: z.enum(['atLeast', 'atMost']),
    room: z.number(),
    roomFraction: z.number(),
    derived: z.boolean(),
    source: z.string(),
    text: z.string(),
  })
  .meta({ id: 'Tightest' });

export const windowSchema = z
  .object({
    verdict,
    from: instant,
    to: instant,
    standing: standing.describe(
      'as of workedOutAt. none: no go; ahead: still to come; light: may light; charge: too late to light, may charge; over: past',
    ),
    lightUpBy: instant
      .nullable()
      .describe('of a go: from this moment on it is too late to light in it; charging goes on until its end'),
    reasons: z.array(reasonSchema),
    tightest: tightestSchema.nullable(),
  })
  .meta({ id: 'Window' });

export const windowsSchema = z
  .object({ ...head, from: instant, to: instant, windows: z.array(windowSchema) })
  .meta({ id: 'Windows' });

export const scoreSchema = z
  .object({
    limit: z.int().describe('which of the limits, in the order of GET /v1/sites/{id}'),
    element: z.string(),
    class: z.enum(['go', 'hold', 'stop', 'missing']),
    applies: z.boolean().describe('false outside of the hours (day, night) for which the limit was written'),
    value: z.number().nullable(),
    bound: z.number().nullable(),
    unit: z.string(),
    room: z.number().nullable(),
    roomFraction: z.number().nullable(),
    derived: z.boolean(),
    missing: z.string().nullable().describe('why there is no value'),
    source: z.string(),
  })
  .meta({ id: 'Score' });

export const hourSchema = z
  .object({
    from: instant,
    to: instant,
    verdict: verdict.describe('the worst verdict within the hour'),
    values: z.record(
      z.string(),
      z.object({
        value: z.number().nullable(),
        unit: z.string(),
        derived: z.boolean(),
        missing: z.string().nullable(),
      }),
    ),
    smokeGoesToward: z.number().nullable().describe('degrees clockwise from north'),
    scores: z.array(scoreSchema),
    tightest: tightestSchema.nullable(),
  })
  .meta({ id: 'Hour' });

const sideSchema = z
  .object({ hold: z.number().nullable(), stop: z.number().nullable() })
  .nullable()
  .describe('bounds in `unit`; null where there is none on that side');

export const hourLimitSchema = z
  .object({
    limit: z.int().describe('its place in this list, as scores name it'),
    element: z.string(),
    when: z.enum(['always', 'day', 'night']),
    unit: z.string(),
    atLeast: sideSchema,
    atMost: sideSchema,
    inclusive: z.boolean().describe('true: a value on a bound is still within it'),
    source: z.string().describe('whose figures these are'),
  })
  .meta({ id: 'HourLimit' });

export const hoursSchema = z
  .object({
    ...head,
    from: instant,
    to: instant,
    limits: z.array(hourLimitSchema).describe('what the hours were judged by, in the units of this answer'),
    hours: z.array(hourSchema),
  })
  .meta({ id: 'Hours' });

const moveSchema = z
  .object({
    element: z.string(),
    at: instant,
    value: z.number(),
    bound: z.number(),
    moveBy: z.number(),
    unit: z.string(),
    towards: verdict,
    source: z.string(),
    text: z.string(),
  })
  .meta({ id: 'Move' });

export const planSchema = z
  .object({
    ...head,
    day: z.string().describe('local date of the site'),
    verdict,
    standing: standing.describe(
      'none: no burn that day; ahead: before light-up; light: may light; charge: too late to light, may charge; pause: in a pause of the burn; over: after the last charge. The verdict is go for ahead and light only.',
    ),
    cannotSay: z.boolean().describe('true where the day is hold only because nobody can say'),
    warmUp: instant.nullable(),
    lightUp: instant.nullable(),
    lightUpBy: instant
      .nullable()
      .describe('from this moment on it is too late to light; charging goes on until the last charge'),
    firstCharge: instant.nullable(),
    lastCharge: instant.nullable(),
    burnedDown: instant.nullable(),
    coveredBy: instant.nullable(),
    pauses: z.array(z.object({ from: instant, to: instant, reasons: z.array(reasonSchema) })),
    causes: z.object({
      warmUp: z.string().nullable(),
      lightUp: z.array(reasonSchema),
      lastCharge: z.array(reasonSchema),
      burnedDown: z.string().nullable(),
      coveredBy: z.string().nullable(),
    }),
    tightest: tightestSchema.nullable(),
    wouldChange: z.object({
      moves: z.array(moveSchema),
      barredBy: z.array(reasonSchema),
      next: z
        .object({ at: instant, from: verdict, to: verdict, reasons: z.array(reasonSchema), text: z.string() })
        .nullable(),
    }),
    text: z.string().describe('the answer in one line'),
  })
  .meta({ id: 'Plan' });

export const forecastStateSchema = z
  .object({
    state: z.enum(['fresh', 'aging', 'stale', 'none']),
    madeAt: instant.nullable(),
    ageMin: z.number().nullable().describe('since the document was made, not since it was fetched'),
    checkedAt: instant.nullable().describe('when the source last confirmed it'),
    nextDueAt: instant
      .nullable()
      .describe(
        'by when the source is asked again; past where that is overdue, null where it never was asked',
      ),
    alertsReadAt: instant.nullable(),
    fault: z.object({ code: z.string(), message: z.string(), at: instant }).nullable(),
  })
  .meta({ id: 'ForecastState' });

export const siteSchema = z
  .object({
    id: z.string(),
    name: z.string(),
    at: z.tuple([z.number(), z.number()]).describe('degrees north, degrees east'),
    timeZone: z.string().nullable().describe('null until the forecast point has told it'),
    permit: z.object({ number: z.string(), issuer: z.string().nullable() }).nullable(),
    phone: z.string().nullable(),
    directions: z.string().nullable().describe('how to get there, in words'),
    limitSet: z.string(),
    limits: z.array(z.record(z.string(), z.unknown())),
    definition: z.record(z.string(), z.unknown()),
    forecast: forecastStateSchema,
    demo: z.boolean(),
    caution: z.string(),
  })
  .meta({ id: 'Site' });

export const sitesSchema = z
  .object({
    sites: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        at: z.tuple([z.number(), z.number()]),
        timeZone: z.string().nullable(),
        forecast: forecastStateSchema,
      }),
    ),
    demo: z.boolean(),
    caution: z.string(),
  })
  .meta({ id: 'Sites' });

export const problemSchema = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    code: z.string(),
    faults: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
    usedBy: z.array(z.string()).optional().describe('what still names it, where it cannot be taken out'),
  })
  .meta({ id: 'Problem' });

export type Reason = z.output<typeof reasonSchema>;
export type Tightest = z.output<typeof tightestSchema>;
export type WindowsAnswer = z.output<typeof windowsSchema>;
export type HoursAnswer = z.output<typeof hoursSchema>;
export type PlanAnswer = z.output<typeof planSchema>;
export type SitesAnswer = z.output<typeof sitesSchema>;
export type SiteAnswer = z.output<typeof siteSchema>;
export type ForecastState = z.output<typeof forecastStateSchema>;
export type Problem = z.output<typeof problemSchema>;

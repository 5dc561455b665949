// What the operator writes as a site → the core's site. A zone that is left out is the forecast point's own.

import { z } from 'zod';
import { plainEventName } from '#core/series/official-alert.ts';
import type { Place, ProtectedPlace, Shift, Site } from '#core/site/site.ts';
import { bearingAndDistance, wrapDeg } from '#core/units/direction.ts';
import { DAY_NAMES } from '#core/units/local-time.ts';
import { nearest } from '#core/units/near-word.ts';
import {
  DEFAULT_ALERTS,
  DEFAULT_BURN,
  DEFAULT_DAYLIGHT,
  DEFAULT_MARGIN_DEG,
  DEFAULT_QUALITY,
  DEFAULT_SMOKE,
  DEFAULT_WIND_SHIFT,
} from './defaults.ts';
import {
  bearing,
  chosen,
  clockTime,
  definitionId,
  localDate,
  minutes,
  name,
  position,
  quantity,
  timeZone,
  verdict,
} from './fields.ts';
import { contactFields } from './site-contact.ts';
import { stationFaults, stationFields } from './stations.ts';
import { dayTextFields, watchFields } from './watch.ts';

/** A quantity in core units that is not negative. */
const core = (dimension: Parameters<typeof quantity>[0]) =>
  quantity(dimension)
    .transform((b) => b.value)
    .refine((value) => value >= 0, 'expected a figure that is not negative');

const knownEvents = Object.keys(DEFAULT_ALERTS);

/** An event by a name of the operator's; one letter beside a known name it is a slip, and the limit would vanish. */
const eventName = z
  .string()
  .min(1)
  .superRefine((event, context) => {
    const plain = plainEventName(event);
    if (knownEvents.some((known) => plainEventName(known) === plain)) return;
    const meant = nearest(event, knownEvents, 2);
    if (meant)
      context.addIssue({ code: 'custom', message: `no event "${event}" is known; did you mean "${meant}"?` });
  });

const shift = z
  .strictObject({
    days: z.array(z.enum(DAY_NAMES)).min(1, 'expected at least one day'),
    from: clockTime,
    to: clockTime,
    holidays: z.array(localDate).default([]),
  })
  .transform((s): Shift => s);

const oneOrMoreShifts = chosen(
  (value): z.ZodType<Shift[]> => (Array.isArray(value) ? z.array(shift).min(1) : shift.transform((s) => [s])),
);

const protectedPlace = z
  .strictObject({
    name,
    bearing: z.tuple([bearing, bearing]).optional(),
    within: core('length').optional(),
    at: position.optional(),
    margin: z.number().min(0).max(90).optional(),
    verdict: verdict.default('stop'),
  })
  .refine(
    (p) =>
      p.at === undefined
        ? p.bearing !== undefined && p.within !== undefined
        : p.bearing === undefined && p.within === undefined,
    'expected either bearing: [from, to] with within: distance, or at: [latitude, longitude]',
  );

const burn = z.strictObject({
  warmUp: minutes.optional(),
  kindling: minutes.optional(),
  burnDown: minutes.optional(),
  cover: minutes.optional(),
  shortestRun: minutes.optional(),
});

const quality = z.strictObject({
  warnAfter: minutes.optional(),
  holdAfter: minutes.optional(),
  alertsHoldAfter: minutes.optional(),
});

const daylightMargins = z.strictObject({
  lightUpAfterSunrise: minutes.optional(),
  outBeforeSunset: minutes.optional(),
});

/** `none` where the site may burn by night. */
const daylight = chosen(
  (value): z.ZodType<'none' | z.output<typeof daylightMargins>> =>
    typeof value === 'string'
      ? z.literal('none', 'expected none, or lightUpAfterSunrise and outBeforeSunset')
      : daylightMargins,
);

const siteKeys = z.strictObject({
  id: definitionId,
  name,
  at: position,
  timeZone: timeZone.optional(),
  limits: z.string().min(1, 'expected the name of a limit set'),
  externalRef: z.string().trim().min(1).max(120).optional(),
  shift: oneOrMoreShifts,
  daylight: daylight.optional(),
  burn: burn.optional(),
  protected: z.array(protectedPlace).default([]),
  smoke: z
    .strictObject({
      reach: core('length').optional(),
      unsureBelow: core('speed').optional(),
      margin: z.number().min(0).max(90).optional(),
    })
    .optional(),
  windShift: z
    .strictObject({
      atLeast: z.number().min(1).max(180).optional(),
      atLeastSpeed: core('speed').optional(),
      withinHours: z.union([z.literal(1), z.literal(2)], 'expected 1 or 2').optional(),
    })
    .optional(),
  quality: quality.optional(),
  gustFromWind: z.strictObject({ factor: z.number().min(1).max(3), source: z.string().min(1) }).optional(),
  alerts: z.record(eventName, z.enum(['advice', 'hold', 'stop'])).optional(),
  watch: watchFields.optional(),
  /** Evening text and dawn text. */
  texts: dayTextFields.optional(),
  stations: z.array(stationFields).default([]),
  ...contactFields,
});

/** A site as it is written. A place beyond the reach would silently never be judged, one at the pit has no bearing. */
export const siteFields = siteKeys.superRefine((site, context) => {
  const { protected: places, smoke } = draftSite(site);
  for (const [k, place] of places.entries()) {
    const fault = placeFault(place, smoke.reachM, site.protected[k]?.at !== undefined);
    if (fault !== null) context.addIssue({ code: 'custom', path: ['protected', k], message: fault });
  }
  const pit = { latDeg: site.at[0], lonDeg: site.at[1] };
  for (const { k, key, message } of stationFaults(site.stations, pit)) {
    context.addIssue({ code: 'custom', path: ['stations', k, key], message });
  }
});

function placeFault(
  { name: place, distanceM }: ProtectedPlace,
  reachM: number,
  byPosition: boolean,
): string | null {
  if (distanceM > reachM) {
    return `"${place}" lies beyond smoke.reach and would not be judged; raise smoke.reach or leave it out`;
  }
  return distanceM >= 1 || !byPosition
    ? null
    : `"${place}" lies at the pit itself; give it a bearing and a distance`;
}

export type SiteFields = z.output<typeof siteKeys>;

/** Everything of a site but what only the forecast point knows. */
export type SiteDraft = Omit<Site, 'timeZone' | 'orders'> & { readonly timeZone: string | null };

export function draftSite(fields: SiteFields): SiteDraft {
  const place: Place = { latDeg: fields.at[0], lonDeg: fields.at[1] };
  const { daylight: light, burn: b, quality: q, windShift: w } = fields;
  return {
    id: fields.id,
    name: fields.name,
    place,
    timeZone: fields.timeZone ?? null,
    shifts: fields.shift,
    daylight:
      light === 'none'
        ? null
        : {
            lightUpAfterSunriseMin: light?.lightUpAfterSunrise ?? DEFAULT_DAYLIGHT.lightUpAfterSunriseMin,
            outBeforeSunsetMin: light?.outBeforeSunset ?? DEFAULT_DAYLIGHT.outBeforeSunsetMin,
          },
    burn: {
      warmUpMin: b?.warmUp ?? DEFAULT_BURN.warmUpMin,
      kindlingMin: b?.kindling ?? DEFAULT_BURN.kindlingMin,
      burnDownMin: b?.burnDown ?? DEFAULT_BURN.burnDownMin,
      coverMin: b?.cover ?? DEFAULT_BURN.coverMin,
      shortestRunMin: b?.shortestRun ?? DEFAULT_BURN.shortestRunMin,
    },
    protected: fields.protected.map((p) => placeOf(p, place, fields.smoke?.margin ?? DEFAULT_MARGIN_DEG)),
    smoke: {
      reachM: fields.smoke?.reach ?? DEFAULT_SMOKE.reachM,
      unsureBelowMps: fields.smoke?.unsureBelow ?? DEFAULT_SMOKE.unsureBelowMps,
    },
    windShift: {
      atLeastDeg: w?.atLeast ?? DEFAULT_WIND_SHIFT.atLeastDeg,
      atLeastMps: w?.atLeastSpeed ?? DEFAULT_WIND_SHIFT.atLeastMps,
      withinHours: w?.withinHours ?? DEFAULT_WIND_SHIFT.withinHours,
    },
    quality: {
      warnAfterMin: q?.warnAfter ?? DEFAULT_QUALITY.warnAfterMin,
      holdAfterMin: q?.holdAfter ?? DEFAULT_QUALITY.holdAfterMin,
      alertsHoldAfterMin: q?.alertsHoldAfter ?? DEFAULT_QUALITY.alertsHoldAfterMin,
    },
    gustFactor: fields.gustFromWind?.factor ?? null,
    alertVerdicts: verdictsWith(fields.alerts),
  };
}

/** The defaults with the operator's own verdicts over them; case and spacing of an event's name do not count. */
function verdictsWith(own: SiteFields['alerts'] = {}): Site['alertVerdicts'] {
  const named = new Set(Object.keys(own).map(plainEventName));
  const kept = Object.entries(DEFAULT_ALERTS).filter(([event]) => !named.has(plainEventName(event)));
  const given = Object.entries(own).map(
    ([event, v]) => [event, v === 'advice' ? ('go' as const) : v] as const,
  );
  return Object.fromEntries([...kept, ...given]);
}

function placeOf(p: SiteFields['protected'][number], pit: Place, marginDeg: number): ProtectedPlace {
  const given = { name: p.name, marginDeg: p.margin ?? marginDeg, verdict: p.verdict };
  if (p.at === undefined) {
    const [fromBearingDeg, toBearingDeg] = p.bearing ?? [0, 360];
    return { ...given, fromBearingDeg, toBearingDeg, distanceM: p.within ?? 0 };
  }
  const { bearingDeg, distanceM } = bearingAndDistance(pit, { latDeg: p.at[0], lonDeg: p.at[1] });
  const rounded = wrapDeg(Math.round(bearingDeg));
  return { ...given, fromBearingDeg: rounded, toBearingDeg: rounded, distanceM };
}

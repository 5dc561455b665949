// What the operator writes as the stations of a site → the core's stations, and how their observations come in.

import { z } from 'zod';
import type { Place } from '#core/site/site.ts';
import { bearingAndDistance } from '#core/units/direction.ts';
import type { Station, StationKind } from '#core/watch/station.ts';
import type { ConfiguredStation, DirectionSettings, StationSource } from '#core/watch/station-source.ts';
import { DEFAULT_STATIONS } from './defaults.ts';
import { bearing, chosen, definitionId, minutes, name, position, quantity } from './fields.ts';
import { averagingS, heightM } from './wind-measure.ts';

const lengthM = quantity('length').transform((b) => b.value);
const speedMps = quantity('speed')
  .transform((b) => b.value)
  .refine((mps) => mps >= 0 && mps <= 5, 'expected a light wind, at most 5 m/s');

const distanceM = lengthM.refine((m) => m >= 0 && m <= FARTHEST_M, 'expected a distance from 0 to 150 km');
const aboveM = lengthM.refine(
  (m) => Math.abs(m) <= 5_000,
  'expected a difference of height of at most 5,000 m',
);

const periodMin = minutes.refine((min) => min >= 1, 'expected a length of time from 1 min to 24 h');

/** Degrees, east positive; or as maps print it, `13 E`. */
const declination = z
  .union([z.number(), z.string()])
  .transform((told) => {
    const match = /^\s*(\d+(?:\.\d+)?)\s*°?\s*([EW])\s*$/.exec(String(told));
    return match ? Number(match[1]) * (match[2] === 'W' ? -1 : 1) : told;
  })
  .refine(
    (deg) => typeof deg === 'number' && Math.abs(deg) <= 90,
    'expected degrees such as "13 E" or "9.5 W"',
  )
  .transform(Number);

/** YAML reads a bare `true` as a yes. */
const reference = z.preprocess(
  (told) => (told === true ? 'true' : told),
  z.enum(
    ['true', 'magnetic', 'relative'],
    'expected true, magnetic or relative: what the directions of this station refer to',
  ),
);

const common = {
  id: definitionId,
  name: name.optional(),
  at: position.optional(),
  distance: distanceM.optional(),
  above: aboveM.optional(),
  period: periodMin.optional(),
  height: heightM.optional(),
  averaging: averagingS.optional(),
  calmBelow: speedMps.optional(),
};
const directions = { reference, declination: declination.optional(), mount: bearing.optional() };

const posted = z.strictObject({
  ...common,
  ...directions,
  kind: z.literal('posted'),
  by: z.enum(['person', 'instrument'], 'expected person or instrument'),
});

const mqtt = z.strictObject({
  ...common,
  ...directions,
  kind: z.literal('mqtt'),
  broker: definitionId,
  topic: z.string().regex(/^[^+#$\s][^+#\s]{0,199}$/, 'expected one topic, without the wildcards + and #'),
});

const nmea = z.strictObject({
  ...common,
  declination: directions.declination,
  mount: directions.mount,
  kind: z.literal('nmea'),
  host: z.string().regex(/^[A-Za-z0-9][A-Za-z0-9.:-]{0,252}$/, 'expected a host name or an address'),
  port: z.int().min(1).max(65_535),
  transducers: z.array(z.string().min(1).max(40)).default([]),
});

const nws = z.strictObject({
  ...common,
  kind: z.literal('nws'),
  /** Left out: the nearest ones. */
  station: z
    .string()
    .regex(/^[A-Z0-9]{3,12}$/, 'expected the name of a station, such as KXYZ')
    .optional(),
  within: distanceM.optional(),
  withinHeight: aboveM.optional(),
  most: z.int().min(1).max(5).optional(),
});

const KINDS = {
  posted: posted.superRefine(checkStation),
  mqtt: mqtt.superRefine(checkStation),
  nmea: nmea.superRefine(checkStation),
  nws: nws.superRefine(checkStation),
};
const anyKind = z.looseObject({
  kind: z.enum(['posted', 'nws', 'mqtt', 'nmea'], 'expected posted, nws, mqtt or nmea'),
});

type Written = z.output<typeof posted> | z.output<typeof mqtt> | z.output<typeof nmea> | z.output<typeof nws>;

export const stationFields = chosen((value): z.ZodType<Written> => {
  const kind = typeof value === 'object' && value !== null && 'kind' in value ? String(value.kind) : '';
  return Object.hasOwn(KINDS, kind) ? KINDS[kind as keyof typeof KINDS] : (anyKind as never);
});

export type StationFields = Written;

function checkStation(told: Written, context: z.RefinementCtx): void {
  const odd = (key: string, message: string) => context.addIssue({ code: 'custom', path: [key], message });
  if (told.at !== undefined && told.distance !== undefined) odd('distance', 'expected either at or distance');
  if ('reference' in told) {
    if (told.reference === 'magnetic' && told.declination === undefined) {
      odd('declination', 'expected how far magnetic north lies from true north, such as "13 E"');
    }
    if (told.reference === 'relative' && told.mount === undefined) {
      odd('mount', 'expected the bearing to which the zero mark of the instrument points');
    }
  }
  if (told.kind === 'nws' && told.station !== undefined) {
    for (const key of ['within', 'withinHeight', 'most'] as const) {
      if (told[key] !== undefined) odd(key, 'is for the nearest stations, and this one is named');
    }
  }
}

/** Farther than this a station says nothing of the site: the position is a slip. */
const FARTHEST_M = 150_000;

/** What is wrong with the stations of a site beside each other; `k` is which. */
export function stationFaults(
  stations: readonly StationFields[],
  pit: Place,
): { readonly k: number; readonly key: string; readonly message: string }[] {
  const ids = stations.map(({ id }) => id);
  return stations.flatMap((told, k) => [
    ...(ids.indexOf(told.id) < k ? [{ k, key: 'id', message: `a second station "${told.id}"` }] : []),
    ...(distanceOf(told, pit) > FARTHEST_M
      ? [{ k, key: 'at', message: 'lies more than 150 km from the site' }]
      : []),
  ]);
}

function distanceOf(told: StationFields, pit: Place): number {
  if (told.at !== undefined) {
    return bearingAndDistance(pit, { latDeg: told.at[0], lonDeg: told.at[1] }).distanceM;
  }
  return told.distance ?? (told.kind === 'nws' ? withinOf(told) : 0);
}

const withinOf = ({ within }: z.output<typeof nws>): number => within ?? DEFAULT_STATIONS.withinM;

/** The stations of a site as the core knows them. */
export const stationsOf = (stations: readonly StationFields[], pit: Place): ConfiguredStation[] =>
  stations.map((told) => ({
    station: stationOf(told, pit),
    directions: directionsOf(told),
    source: sourceOf(told),
  }));

function stationOf(told: StationFields, pit: Place): Station {
  const metres = distanceOf(told, pit);
  const { reference: refersTo, declinationDeg, mountDeg } = directionsOf(told);
  const offsets = { true: null, magnetic: declinationDeg, relative: mountDeg };
  return {
    id: told.id,
    name: told.name ?? told.id,
    kind: kindOf(told, metres),
    distanceM: Math.round(metres),
    aboveSiteM: told.above ?? (metres === 0 ? 0 : null),
    periodMin: told.period ?? defaultPeriod(told),
    windHeightM: told.height ?? null,
    windAveragingS: told.averaging ?? null,
    directionOffsetDeg: offsets[refersTo],
    calmBelowMps: told.calmBelow ?? DEFAULT_STATIONS.calmBelowMps[told.kind],
  };
}

function kindOf(told: StationFields, metres: number): StationKind {
  if (told.kind === 'posted' && told.by === 'person') return 'person';
  return told.kind !== 'nws' && metres <= DEFAULT_STATIONS.onSiteM ? 'onSite' : 'near';
}

function defaultPeriod(told: StationFields): number {
  const { periodMin: periods } = DEFAULT_STATIONS;
  if (told.kind === 'posted') return told.by === 'person' ? periods.person : periods.instrument;
  if (told.kind === 'nws') return periods.nws;
  // An instrument that we listen to gives one observation for each averaging period.
  const averaged = told.kind === 'nmea' ? Math.ceil((told.averaging ?? 120) / 60) : 0;
  return Math.max(averaged, told.kind === 'nmea' ? 1 : periods.instrument);
}

function directionsOf(told: StationFields): DirectionSettings {
  const isOwn = 'reference' in told;
  const refersTo = told.kind === 'nmea' && told.mount !== undefined ? 'relative' : 'true';
  return {
    reference: isOwn ? told.reference : refersTo,
    declinationDeg: ('declination' in told ? told.declination : undefined) ?? null,
    mountDeg: ('mount' in told ? told.mount : undefined) ?? null,
  };
}

function sourceOf(told: StationFields): StationSource {
  switch (told.kind) {
    case 'posted':
      return { kind: 'posted' };
    case 'mqtt':
      return { kind: 'mqtt', broker: told.broker, topic: told.topic };
    case 'nmea':
      return { kind: 'nmea', host: told.host, port: told.port, transducers: told.transducers };
    case 'nws':
      return told.station === undefined
        ? {
            kind: 'nws-near',
            withinM: withinOf(told),
            withinHeightM: Math.abs(told.withinHeight ?? DEFAULT_STATIONS.withinHeightM),
            most: told.most ?? DEFAULT_STATIONS.most,
          }
        : { kind: 'nws', stationId: told.station };
  }
}

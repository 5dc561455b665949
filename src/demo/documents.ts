// The stand-in's answers as documents: a point, a grid, a list of alerts, and a problem.

import { createHash } from 'node:crypto';
import { addDays, localDateAt } from '#core/units/local-time.ts';
import { floorToHour } from '#core/units/time.ts';
import { DEMO_CELLS, type DemoCell } from './cells.ts';
import { redFlagAt, redFlagSpan } from './red-flag.ts';
import { instantText } from './run-length.ts';
import { type GridpointDocument, syntheticGridpoint } from './synthetic-gridpoint.ts';

const CONTEXT = ['https://geojson.org/geojson-ld/geojson-context.jsonld', { '@version': '1.1' }];

export function pointDocument(cell: DemoCell, latText: string, lonText: string, baseUrl: string): unknown {
  const url = `${baseUrl}/points/${latText},${lonText}`;
  const grid = `${baseUrl}/gridpoints/${cell.gridId}/${cell.gridX},${cell.gridY}`;
  return {
    '@context': CONTEXT,
    id: url,
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [Number(lonText), Number(latText)] },
    properties: {
      '@id': url,
      '@type': 'wx:Point',
      cwa: cell.gridId,
      type: 'land',
      forecastOffice: `${baseUrl}/offices/${cell.gridId}`,
      gridId: cell.gridId,
      gridX: cell.gridX,
      gridY: cell.gridY,
      forecast: `${grid}/forecast`,
      forecastHourly: `${grid}/forecast/hourly`,
      forecastGridData: grid,
      observationStations: `${grid}/stations`,
      relativeLocation: {
        type: 'Feature',
        geometry: { type: 'Point', coordinates: [-120.2, 36.4] },
        properties: { city: 'Tamber', state: 'XX' },
      },
      forecastZone: `${baseUrl}/zones/forecast/${cell.forecastZone}`,
      county: `${baseUrl}/zones/county/${cell.county}`,
      fireWeatherZone: `${baseUrl}/zones/fire/${cell.fireZone}`,
      timeZone: cell.timeZone,
      radarStation: null,
    },
  };
}

export function gridpointDocument(cell: DemoCell, nowMs: number, baseUrl: string): GridpointDocument {
  const today = localDateAt(floorToHour(nowMs), cell.timeZone);
  const flagged = hasRedFlag(cell) ? [today, addDays(today, 1)] : [];
  const hazards = flagged.map((date) => redFlagSpan(date, cell.timeZone));
  return syntheticGridpoint({ ...cell, nowMs, hazards, baseUrl });
}

/** Alerts of the zones asked for, whatever kind of zone bears the code. */
export function alertsDocument(
  zones: readonly string[],
  title: string,
  nowMs: number,
  baseUrl: string,
): { document: unknown; changedMs: number } {
  const warned = DEMO_CELLS.filter(hasRedFlag);
  const found = warned.map((cell) => ({ zone: cell.fireZone, ...redFlagAt(cell, nowMs, baseUrl) }));
  const changedMs = Math.max(...found.map((f) => f.changedMs));
  const features = found.filter((f) => zones.includes(f.zone)).flatMap((f) => f.features);
  const document = {
    '@context': CONTEXT,
    type: 'FeatureCollection',
    features,
    title,
    updated: instantText(changedMs),
  };
  return { document, changedMs };
}

const hasRedFlag = (cell: DemoCell): boolean => cell.story === 'dryNorthWind';

export interface Problem {
  readonly status: number;
  /** Last part of its type. */
  readonly kind: string;
  readonly title: string;
  readonly detail: string;
}

/** A problem as the API words it: RFC 7807, all members there. */
export function problemDocument(
  { status, kind, title, detail }: Problem,
  target: string,
  baseUrl: string,
): unknown {
  const correlationId = createHash('sha1').update(target).digest('hex').slice(0, 8);
  return {
    correlationId,
    title,
    type: `https://api.weather.gov/problems/${kind}`,
    status,
    detail,
    instance: `${baseUrl}/requests/${correlationId}`,
  };
}

// Saved forecasts: what `pitward save` writes, and bare NWS documents; read back as if they had just been pulled.

import { readFileSync, statSync } from 'node:fs';
import { z } from 'zod';
import type { Forecast } from '#core/series/forecast.ts';
import { ALERTS_NEVER_READ, type AlertsSeen } from '#core/series/official-alert.ts';
import type { Place } from '#core/site/site.ts';
import { isTimeZone, rfc3339 } from '#core/units/local-time.ts';
import { messageOf, ServiceError } from '#errors.ts';
import type { HeldForecast } from '#memory/site-state.ts';
import { readSavedAlerts } from '#sources/nws/alerts.ts';
import { readGridpoint } from '#sources/nws/gridpoint.ts';
import type { Pulled } from '#sources/source.ts';

const savedAlert = z.object({
  id: z.string(),
  event: z.string(),
  fromMs: z.number().nullable(),
  toMs: z.number().nullable(),
  sentMs: z.number().nullable(),
  senderName: z.string(),
  headline: z.string(),
  possible: z.boolean(),
});

/** What `pitward save` writes. */
const savedSchema = z.object({
  savedForecast: z.literal(1),
  savedAt: z.string(),
  timeZone: z.string().refine(isTimeZone, 'expected an IANA time zone name'),
  fetchedAtMs: z.number(),
  alerts: z.object({ fetchedAtMs: z.number(), complete: z.boolean(), alerts: z.array(savedAlert) }),
  gridpoint: z.string(),
});

export function savedText({ forecast, alerts, point, gridpointBytes }: Pulled, nowMs: number): string {
  const saved: z.output<typeof savedSchema> = {
    savedForecast: 1,
    savedAt: rfc3339(nowMs, point.timeZone),
    timeZone: point.timeZone,
    fetchedAtMs: forecast.fetchedAtMs,
    alerts: { ...alerts, alerts: [...alerts.alerts] },
    // As text, so that the document stays what was received, byte for byte.
    gridpoint: Buffer.from(gridpointBytes).toString('utf8'),
  };
  return JSON.stringify(saved, null, 1);
}

/**
 * Reads a saved forecast, or a bare grid document with the alerts given beside it. Without alerts the plan holds: none
 * read is not none. `siteTimeZone` is needed for a bare document, which names no zone. Throws ServiceError
 * `file_unreadable` or `source_unreadable`.
 */
export function readSaved(
  file: string,
  alertsFile: string | null,
  site: { readonly place: Place; readonly timeZone: string | null },
  nowMs: number,
): HeldForecast & { readonly alerts: AlertsSeen } {
  const bytes = readBytes(file);
  const raw = parsed(bytes, file);
  const saved = savedSchema.safeParse(raw);
  if (!saved.success && typeof raw === 'object' && raw !== null && 'savedForecast' in raw) {
    throw new ServiceError(
      'file_unreadable',
      `${file} is a saved forecast that cannot be read: ${z.prettifyError(saved.error)}`,
    );
  }
  const given = alertsFile === null ? null : readAlertsFile(alertsFile, nowMs);
  if (saved.success) {
    const { gridpoint, fetchedAtMs, timeZone, alerts } = saved.data;
    const forecast = forecastFor(site.place, Buffer.from(gridpoint), fetchedAtMs, file);
    return { forecast, alerts: given ?? alerts, pointTimeZone: timeZone };
  }
  if (site.timeZone === null) {
    throw new ServiceError(
      'file_unreadable',
      `${file} names no time zone: give the site a timeZone, or use a file written by "pitward save"`,
    );
  }
  const forecast = forecastFor(site.place, bytes, nowMs, file);
  return { forecast, alerts: given ?? ALERTS_NEVER_READ, pointTimeZone: site.timeZone };
}

/** A forecast for somewhere else is none, however good. */
function forecastFor(place: Place, bytes: Uint8Array, fetchedAtMs: number, file: string): Forecast {
  const { forecast, outsideM } = readGridpoint(bytes, { fetchedAtMs, place });
  if (outsideM !== null && outsideM <= FARTHEST_OUTSIDE_M) return forecast;
  const where =
    outsideM === null
      ? 'does not say for which place it is'
      : `is for a place ${Math.round(outsideM / 1000)} km away`;
  throw new ServiceError('file_unreadable', `${file} ${where}`);
}

/** As a live pull has it: a cell's edge may be that far off [m]. */
const FARTHEST_OUTSIDE_M = 5_000;

/** A bare list does not say when it was read: as long ago as its file was written, however late that is judged. */
const readAlertsFile = (file: string, nowMs: number): AlertsSeen =>
  readSavedAlerts(readBytes(file), null, Math.min(nowMs, writtenAtMs(file)));

function writtenAtMs(file: string): number {
  try {
    return statSync(file).mtimeMs;
  } catch (cause) {
    throw new ServiceError('file_unreadable', `cannot read ${file}: ${messageOf(cause)}`, { cause });
  }
}

function readBytes(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (cause) {
    throw new ServiceError('file_unreadable', `cannot read ${file}: ${messageOf(cause)}`, { cause });
  }
}

function parsed(bytes: Uint8Array, file: string): unknown {
  const text = Buffer.from(bytes).toString('utf8');
  try {
    return JSON.parse(text);
  } catch (cause) {
    const why = /^\s*> /.test(text)
      ? 'it begins with lines of npm (npm run -s leaves them out)'
      : messageOf(cause);
    throw new ServiceError('file_unreadable', `${file} is no JSON: ${why}`, { cause });
  }
}

// Saved forecasts: what `pitward save` writes, and bare NWS documents; read back as if they had just been pulled.

import { readFileSync } from 'node:fs';
import { z } from 'zod';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { Place } from '#core/site/site.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { messageOf, ServiceError } from '#errors.ts';
import { readSavedAlerts } from '#sources/nws/alerts.ts';
import { readGridpoint } from '#sources/nws/gridpoint.ts';
import type { Pulled } from '#sources/source.ts';
import type { HeldForecast } from '#store/latest.ts';

/** What `pitward save` writes. */
const savedSchema = z.object({
  savedForecast: z.literal(1),
  savedAt: z.string(),
  timeZone: z.string(),
  fetchedAtMs: z.number(),
  alerts: z.custom<AlertsSeen>(
    (a) => typeof a === 'object' && a !== null && 'alerts' in a && Array.isArray(a.alerts),
  ),
  gridpoint: z.string(),
});

export function savedText({ forecast, alerts, point, gridpointBytes }: Pulled, nowMs: number): string {
  const saved: z.output<typeof savedSchema> = {
    savedForecast: 1,
    savedAt: rfc3339(nowMs, point.timeZone),
    timeZone: point.timeZone,
    fetchedAtMs: forecast.fetchedAtMs,
    alerts,
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
  const saved = savedSchema.safeParse(parsed(bytes, file));
  const given = alertsFile === null ? null : readSavedAlerts(readBytes(alertsFile), null, nowMs);
  if (saved.success) {
    const { gridpoint, fetchedAtMs, timeZone, alerts } = saved.data;
    const { forecast } = readGridpoint(Buffer.from(gridpoint), { fetchedAtMs, place: site.place });
    return { forecast, alerts: given ?? alerts, pointTimeZone: timeZone };
  }
  if (site.timeZone === null) {
    throw new ServiceError(
      'file_unreadable',
      `${file} names no time zone: give the site a timeZone, or use a file written by "pitward save"`,
    );
  }
  const { forecast } = readGridpoint(bytes, { fetchedAtMs: nowMs, place: site.place });
  return { forecast, alerts: given ?? NEVER_READ, pointTimeZone: site.timeZone };
}

/** Alerts of which nothing is known. */
const NEVER_READ: AlertsSeen = { fetchedAtMs: 0, complete: false, alerts: [] };

function readBytes(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (cause) {
    throw new ServiceError('file_unreadable', `cannot read ${file}: ${messageOf(cause)}`, { cause });
  }
}

function parsed(bytes: Uint8Array, file: string): unknown {
  try {
    return JSON.parse(Buffer.from(bytes).toString('utf8'));
  } catch (cause) {
    throw new ServiceError('file_unreadable', `${file} is no JSON: ${messageOf(cause)}`, { cause });
  }
}

// Whether an alert concerns a place. Where that is in doubt it may: one alert too many costs an hour.

import type { Place } from '#core/site/site.ts';
import type { AlertFeature } from './alert-feature.ts';
import { isInside } from './outline.ts';

/** Zones that concern a place, by kind: kinds may share a code and yet be other land. */
export type Zones = readonly { readonly kind: string; readonly code: string }[];

export type Fit = 'elsewhere' | 'possible' | 'certain';
export const RANK: Readonly<Record<Fit, number>> = { elsewhere: 0, possible: 1, certain: 2 };

/** By the names of zones first, since most alerts have no outline; by outline, too, since some have no zones. */
export function fitOf(
  alert: AlertFeature,
  query: 'zone' | 'all',
  zones: Zones | null,
  place: Place | null,
): Fit {
  if (zones === null) return 'certain';
  if (alert.zones.some((zone) => zones.some((own) => own.kind === zone.kind && own.code === zone.code))) {
    return 'certain';
  }
  const isOutlined = alert.outline !== null && place !== null;
  if (query === 'all' && isOutlined && isInside(alert.outline, place)) return 'certain';
  const named = alert.codes.some((code) => zones.some((own) => own.code === code));
  const isNowhere = alert.codes.length === 0 && !isOutlined;
  return named || query === 'zone' || isNowhere ? 'possible' : 'elsewhere';
}

// The wind group of a report, read strictly: 20014G22KT, VRB03KT, 00000KT, /////KT. Own reading, since a group of
// km/h or one beyond 99 must neither change its unit nor vanish.

import { ELEMENTS } from '#core/series/elements.ts';
import type { ToldWind } from './observed-wind.ts';

export interface MetarWind extends ToldWind {
  readonly gustMps: number | null;
}

const GROUP = /^(\d{3}|VRB|\/{3})(P?\d{2,3}|\/{2,3})(?:G(P?\d{2,3}|\/{2,3}))?(KT|MPS|KMH)$/;
const LOOKS_LIKE_ONE = /(?:KT|MPS|KMH)$/;

/** To m/s; the international knot is exact. */
const FACTOR: Readonly<Record<string, number>> = { KT: 1852 / 3600, MPS: 1, KMH: 1 / 3.6 };

const NO_WIND: MetarWind = { speedMps: null, direction: null, gustMps: null };

/** Null for the group where the report has none, or none that can be read; `fault` then quotes what was there. */
export function readMetarWind(body: readonly string[]): { wind: MetarWind; fault: string | null } {
  const group = body.find((text) => GROUP.test(text));
  const match = GROUP.exec(group ?? '');
  if (!match) return { wind: NO_WIND, fault: body.find((text) => LOOKS_LIKE_ONE.test(text)) ?? null };
  const [, direction = '', speed = '', gust, unit = ''] = match;
  if (/^\d/.test(direction) && Number(direction) > 360) return { wind: NO_WIND, fault: match[0] };
  const factor = FACTOR[unit] ?? Number.NaN;
  const speedMps = speedOf(speed, factor);
  const gustMps = gust === undefined ? null : speedOf(gust, factor);
  if ((speedMps ?? 0) > ELEMENTS.windSpeed.most || (gustMps ?? 0) > ELEMENTS.windGust.most) {
    return { wind: NO_WIND, fault: match[0] };
  }
  // A gust that is no stronger than the mean is a slip in one of the two.
  const isGust = gustMps !== null && (speedMps === null || gustMps > speedMps);
  return {
    wind: { speedMps, direction: directionOf(direction), gustMps: isGust ? gustMps : null },
    fault: gustMps !== null && !isGust ? match[0] : null,
  };
}

/** `P99`: more than 99 (ICAO Annex 3, appendix 3, from memory); taken as the least whole number that this can be. */
function speedOf(text: string, factor: number): number | null {
  if (text.startsWith('/')) return null;
  return (text.startsWith('P') ? Number(text.slice(1)) + 1 : Number(text)) * factor;
}

function directionOf(text: string): number | 'variable' | null {
  if (text === 'VRB') return 'variable';
  return text.startsWith('/') ? null : Number(text);
}

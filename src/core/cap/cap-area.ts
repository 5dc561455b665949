// Where a message is about: the pit as a circle, and the smoke as a sector from the pit. Where nobody can say where the smoke
// goes, all that it may reach.

import { placeToward } from '#core/units/position.ts';
import type { Smoke } from '#core/watch/smoke.ts';
import type { CapArea } from './cap-alert.ts';

/** People work around a pit within that [km] (ours). */
const PIT_KM = 0.5;
const STEP_DEG = 10;

export function capArea(
  areaDesc: string,
  at: readonly [number, number],
  reachM: number,
  smoke: Smoke | null,
): CapArea {
  const [latDeg, lonDeg] = [place(at[0]), place(at[1])];
  const circle = (radiusKm: number): CapArea['circles'] => [{ at: [latDeg, lonDeg], radiusKm }];
  if (smoke === null) return { areaDesc, polygons: [], circles: circle(PIT_KM) };
  const reachKm = Math.round(reachM / 10) / 100;
  if (smoke.kind !== 'toward') return { areaDesc, polygons: [], circles: circle(Math.max(PIT_KM, reachKm)) };
  const { towardDeg, halfWidthDeg } = smoke;
  const steps = Math.max(1, Math.ceil((2 * halfWidthDeg) / STEP_DEG));
  const edge = Array.from({ length: steps + 1 }, (_, i): [number, number] => {
    const bearingDeg = towardDeg - halfWidthDeg + (2 * halfWidthDeg * i) / steps;
    const end = placeToward({ latDeg, lonDeg }, (bearingDeg + 360) % 360, reachM);
    return [place(end.latDeg), place(end.lonDeg)];
  });
  return { areaDesc, polygons: [[[latDeg, lonDeg], ...edge, [latDeg, lonDeg]]], circles: circle(PIT_KM) };
}

/** To a metre. */
const place = (deg: number): number => Math.round(deg * 1e5) / 1e5;

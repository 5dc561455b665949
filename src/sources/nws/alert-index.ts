// A list of all alerts, made ready to be asked for those of many places.

import type { Place } from '#core/site/site.ts';
import type { AlertFeature } from './alert-feature.ts';
import { fitOf, type Zones } from './alert-fit.ts';
import type { Outline } from './outline.ts';

export interface AlertIndex {
  /** Every alert that concerns a place, or may, in the order of the list. */
  of(zones: Zones, place: Place): AlertFeature[];
}

export function indexAlerts(features: readonly AlertFeature[]): AlertIndex {
  const byCode = new Map<string, number[]>();
  const outlined: { readonly at: number; readonly box: Box }[] = [];
  const nowhere: number[] = [];
  for (const [at, { codes, outline }] of features.entries()) {
    for (const code of codes) byCode.set(code, [...(byCode.get(code) ?? []), at]);
    if (outline !== null) outlined.push({ at, box: boxAround(outline) });
    else if (codes.length === 0) nowhere.push(at);
  }
  return {
    of(zones, place) {
      const near = new Set(nowhere);
      for (const { code } of zones) for (const at of byCode.get(code) ?? []) near.add(at);
      for (const { at, box } of outlined) if (isIn(box, place)) near.add(at);
      return [...near]
        .sort((a, b) => a - b)
        .map((at) => features[at] as AlertFeature)
        .filter((alert) => fitOf(alert, 'all', zones, place) !== 'elsewhere');
    },
  };
}

interface Box {
  readonly south: number;
  readonly north: number;
  readonly west: number;
  readonly east: number;
}

/** One that spans half the world or more reaches over the date line, or may: its longitudes then exclude nothing. */
function boxAround(outline: Outline): Box {
  const box = { south: 90, north: -90, west: 360, east: -360 };
  for (const [lonDeg, latDeg] of outline.flat(2)) {
    box.south = Math.min(box.south, latDeg);
    box.north = Math.max(box.north, latDeg);
    box.west = Math.min(box.west, lonDeg);
    box.east = Math.max(box.east, lonDeg);
  }
  const isWide = box.east - box.west >= 180 || box.west < -180 || box.east > 180;
  return isWide ? { ...box, west: -180, east: 180 } : box;
}

const isIn = ({ south, north, west, east }: Box, { latDeg, lonDeg }: Place): boolean =>
  latDeg >= south && latDeg <= north && lonDeg >= west && lonDeg <= east;

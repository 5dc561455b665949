// The numbers of a message, for programs: names of our own, values in the unit that stands beside them. What is not known is
// not there.

import type { Transition } from '#core/notices/notice.ts';
import { ELEMENTS } from '#core/series/elements.ts';
import type { Smoke } from '#core/watch/smoke.ts';
import { capDateTime } from './date-time.ts';
import type { AlertParts } from './make-alert.ts';

type Parameter = readonly [name: string, value: string];
type Given = readonly [name: string, value: string | number | null];

const PREFIX = 'pitward:';

export function alertParameters(parts: AlertParts): Parameter[] {
  const { told, site, smoke } = parts;
  const zone = site.timeZone;
  const about: readonly Given[] =
    told.kind === 'burn'
      ? [
          ['burn', told.id],
          ['burnState', told.burn?.state ?? null],
          ['litAt', at(told.burn?.litAtMs ?? null, zone)],
        ]
      : noticeFigures(told.transition, zone);
  const all: readonly Given[] = [
    ['site', site.id],
    ['externalRef', site.externalRef],
    ...about,
    ...smokeFigures(smoke, zone),
  ];
  return all.flatMap(([name, value]): Parameter[] =>
    value === null || value === '' ? [] : [[`${PREFIX}${name}`, String(value)]],
  );
}

const at = (ms: number | null, zone: string): string | null => (ms === null ? null : capDateTime(ms, zone));

function noticeFigures({ condition, verdict, episode, number, kind }: Transition, zone: string): Given[] {
  const { code, basis, asOfMs, figures } = condition;
  const unit = figures.element === null ? null : ELEMENTS[figures.element].unit;
  return [
    ['code', code],
    ['step', kind],
    ['verdict', verdict],
    ['basis', basis],
    ['episode', episode],
    ['number', number],
    ['element', figures.element],
    ['value', rounded(figures.value)],
    ['limit', rounded(figures.bound)],
    ['limitSide', figures.bound === null ? null : figures.side],
    ['unit', figures.value === null && figures.bound === null ? null : unit],
    ['limitSource', figures.source],
    ['asOf', at(asOfMs, zone)],
    ['when', at(figures.atMs, zone)],
    ['was', at(figures.wasMs, zone)],
    ['windFromDeg', rounded(figures.windFromDeg)],
    ['windWasFromDeg', rounded(figures.wasFromDeg)],
    ['windSpeedMps', rounded(figures.windSpeedMps)],
    ['gustMps', rounded(figures.gustMps)],
    ['place', figures.place],
    ['station', figures.station],
    ['what', figures.what],
  ];
}

function smokeFigures(smoke: Smoke | null, zone: string): Given[] {
  if (smoke === null) return [];
  const { kind, source } = smoke;
  return [
    ['smoke', kind],
    ['smokeTowardDeg', kind === 'toward' ? rounded(smoke.towardDeg) : null],
    ['smokeHalfWidthDeg', kind === 'toward' ? rounded(smoke.halfWidthDeg) : null],
    ['smokeBasis', source?.kind ?? null],
    ['smokeAsOf', at(source?.atMs ?? null, zone)],
  ];
}

const rounded = (value: number | null): number | null =>
  value === null || !Number.isFinite(value) ? null : Math.round(value * 100) / 100;

// Names for what is refused: the numbers always, and the words where they are known.

import type { FieldHead } from './field.ts';

/** Parameters that are met and not read, or read at another level only (code table 4.2 and the local tables of NCEP). */
const WORDS: Readonly<Record<string, string>> = {
  '0/0/0': 'temperature',
  '0/0/4': 'maximum temperature',
  '0/0/5': 'minimum temperature',
  '0/0/6': 'dew point',
  '0/1/1': 'relative humidity',
  '0/1/8': 'total precipitation',
  '0/1/27': 'maximum relative humidity',
  '0/1/29': 'total snowfall',
  '0/1/192': 'weather text, local',
  '0/1/198': 'minimum relative humidity, local',
  '0/2/0': 'wind direction',
  '0/2/1': 'wind speed',
  '0/2/2': 'wind along i',
  '0/2/3': 'wind along j',
  '0/2/22': 'wind gust',
  '0/2/224': 'ventilation rate, local; its level is not confirmed',
  '0/2/225': 'transport wind speed, local; its level is not confirmed',
  '0/2/226': 'transport wind direction, local; its level is not confirmed',
  '0/3/5': 'geopotential height',
  '0/3/18': 'planetary boundary layer height',
  '0/6/1': 'total cloud cover',
  '0/19/2': 'thunderstorm probability',
  '0/19/3': 'mixed layer depth',
  '0/19/235': 'joint wind and humidity probability, local',
  '0/192/192': 'critical fire weather, local',
  '0/192/194': 'dry lightning, local',
  '2/4/2': 'Haines index',
  '2/4/4': 'Fosberg index',
};

/** `0/1/198 (minimum relative humidity, local), template 4.8, surface 103:2, minimum over 12 h`. */
export function nameOf({ discipline, product }: FieldHead): string {
  const numbers = `${discipline}/${product.category}/${product.number}`;
  const words = WORDS[numbers];
  const { surface, secondSurface, period, probability, percentile, member } = product;
  const parts = [
    `${numbers}${words ? ` (${words})` : ''}`,
    `template 4.${product.template}`,
    `surface ${surfaceText(surface)}${secondSurface ? ` to ${surfaceText(secondSurface)}` : ''}`,
  ];
  if (period)
    parts.push(`${period.process ?? `process ${period.processCode}`} over ${period.lengthMs / 3_600_000} h`);
  if (probability)
    parts.push(
      `probability of type ${probability.type}, limits ${probability.lower} and ${probability.upper}`,
    );
  if (percentile !== null) parts.push(`percentile ${percentile}`);
  if (member !== null) parts.push(`member ${member}`);
  return parts.join(', ');
}

const surfaceText = ({ type, value }: { type: number; value: number | null }): string =>
  `${type}:${value ?? '-'}`;

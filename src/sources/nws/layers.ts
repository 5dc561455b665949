// Which layers of the grid we read, and as which element. ADD A LAYER: a row here.

import type { Element } from '#core/series/elements.ts';

export interface LayerRow {
  readonly element: Element;
  /** The API's names for it; the first one that has values counts. */
  readonly names: readonly string[];
  /** Unit of a layer that by custom carries none; null where a layer without a unit is unusable. */
  readonly unitless: string | null;
}

const row = (element: Element, names: readonly string[], unitless: string | null = null): LayerRow => ({
  element,
  names,
  unitless,
});

/**
 * Layer names: OpenAPI document of api.weather.gov 3.8.1, schema Gridpoint. Offices fill one of the two dispersion
 * layers. Twenty-foot wind is left out on purpose: it is lower than the 10 m wind, and the two must not mix.
 */
export const LAYERS: readonly LayerRow[] = [
  row('windSpeed', ['windSpeed']),
  row('windGust', ['windGust']),
  row('windDirection', ['windDirection']),
  row('relativeHumidity', ['relativeHumidity']),
  row('temperature', ['temperature']),
  row('dewPoint', ['dewpoint']),
  row('skyCover', ['skyCover']),
  row('mixingHeight', ['mixingHeight']),
  row('transportWindSpeed', ['transportWindSpeed']),
  row('transportWindDirection', ['transportWindDirection']),
  row('probabilityOfPrecipitation', ['probabilityOfPrecipitation']),
  row('quantitativePrecipitation', ['quantitativePrecipitation']),
  row('probabilityOfThunder', ['probabilityOfThunder'], '%'),
  row('lightningActivityLevel', ['lightningActivityLevel'], '1'),
  row('dispersionIndex', ['dispersionIndex', 'atmosphericDispersionIndex'], '1'),
  row('lowVisibilityIndex', ['lowVisibilityOccurrenceRiskIndex'], '1'),
  row('redFlagThreat', ['redFlagThreatIndex'], '1'),
];

export const LAYER_NAMES: readonly string[] = LAYERS.flatMap(({ names }) => names);

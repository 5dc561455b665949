// What a field means here: discipline, category, number, template, level and process → our element, its unit and its span. A
// strict table: what is not in it is refused by name, never guessed at. ADD AN ELEMENT: a row here.

import type { Element } from '#core/series/elements.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { GribFault } from './fault.ts';
import type { FieldHead } from './field.ts';
import { nameOf } from './names.ts';
import type { Process } from './period.ts';
import type { Product } from './product.ts';
import type { RawField } from './walk-sections.ts';

/** A component of the wind; which way it points the grid says. */
export type WindComponent = 'windAlongI' | 'windAlongJ';

export interface Meaning {
  readonly element: Element | WindComponent;
  /** Core unit = value + offset. */
  readonly offset: number;
  /** Both ends alike for an instant. */
  readonly fromMs: number;
  readonly toMs: number;
  /** Where another quantity stands for the element, its name. */
  readonly inPlace: string | null;
}

interface Row {
  readonly element: Element | WindComponent;
  /** Discipline, category, number (code tables 0.0, 4.1, 4.2). */
  readonly parameter: readonly [number, number, number];
  /** Type and value of the surface (code table 4.5); null where the type has no value: zero or missing are alike. */
  readonly surface: readonly [number, number | null];
  readonly span: Span | null;
  readonly offset: number;
  readonly inPlace: string | null;
}

interface Span {
  readonly process: Process;
  readonly hours: readonly number[];
  /** Above which amount (code table 4.9, type 1); null where it is no probability of that kind. */
  readonly above: number | null;
  /** Code table 4.3: what the field must have been made as; null where any will do. */
  readonly generating: number | null;
}

const SURFACE = 1;
const ENTIRE_ATMOSPHERE = 10;
const ABOVE_GROUND = 103;
const PROBABILITY_FORECAST = 5;
const KELVIN = -273.15;

const instant = (
  element: Row['element'],
  parameter: Row['parameter'],
  surface: Row['surface'],
  { offset = 0, inPlace = null }: { offset?: number; inPlace?: string | null } = {},
): Row => ({ element, parameter, surface, span: null, offset, inPlace });

const over = (
  element: Element,
  parameter: Row['parameter'],
  span: Partial<Span> & Pick<Span, 'hours'>,
): Row => ({
  element,
  parameter,
  surface: [SURFACE, null],
  span: { process: 'accumulation', above: null, generating: null, ...span },
  offset: 0,
  inPlace: null,
});

/**
 * As NDFD, NBM and HRRR send them (NOAA-MDL degrib and grib2io tables; level texts of NBM index files). Ventilation rate and
 * transport wind are not here: at which level NBM sends them is not confirmed.
 */
const ROWS: readonly Row[] = [
  instant('temperature', [0, 0, 0], [ABOVE_GROUND, 2], { offset: KELVIN }),
  instant('dewPoint', [0, 0, 6], [ABOVE_GROUND, 2], { offset: KELVIN }),
  instant('relativeHumidity', [0, 1, 1], [ABOVE_GROUND, 2]),
  instant('windDirection', [0, 2, 0], [ABOVE_GROUND, 10]),
  instant('windSpeed', [0, 2, 1], [ABOVE_GROUND, 10]),
  instant('windAlongI', [0, 2, 2], [ABOVE_GROUND, 10]),
  instant('windAlongJ', [0, 2, 3], [ABOVE_GROUND, 10]),
  instant('windGust', [0, 2, 22], [ABOVE_GROUND, 10]),
  instant('windGust', [0, 2, 22], [SURFACE, null]),
  instant('skyCover', [0, 6, 1], [SURFACE, null]),
  instant('mixingHeight', [0, 19, 3], [ENTIRE_ATMOSPHERE, null]),
  instant('mixingHeight', [0, 3, 18], [SURFACE, null], { inPlace: 'planetary boundary layer height' }),
  over('quantitativePrecipitation', [0, 1, 8], { hours: [1, 6] }),
  over('probabilityOfPrecipitation', [0, 1, 8], { hours: [1, 6, 12], above: 0.254 }),
  over('probabilityOfThunder', [0, 19, 2], { hours: [1, 3, 6, 12], generating: PROBABILITY_FORECAST }),
];

/** Code table 1.3: others are tests, research or looks back. */
const OPERATIONAL = 0;

/** Throws GribFault `unknown` where no row fits, and `malformed` where the span contradicts itself. */
export function meaningOf(head: FieldHead, raw: RawField): Meaning {
  const { product, origin } = head;
  const byte = raw.product.start;
  if (origin.production !== OPERATIONAL) {
    throw new GribFault(
      'unknown',
      `${nameOf(head)} is not operational (status ${origin.production})`,
      raw.identification.byteOf(20),
    );
  }
  const row = ROWS.find((candidate) => fits(candidate, head));
  if (!row) throw new GribFault('unknown', `${nameOf(head)} is none of the elements that are read`, byte);
  if (product.period && product.toMs - product.fromMs !== product.period.lengthMs) {
    throw new GribFault('malformed', `${nameOf(head)} ends at another time than its length says`, byte);
  }
  const { element, offset, inPlace } = row;
  return { element, offset, inPlace, fromMs: product.fromMs, toMs: product.toMs };
}

function fits({ parameter, surface, span }: Row, { discipline, product }: FieldHead): boolean {
  const [type, value] = surface;
  return (
    parameter[0] === discipline &&
    parameter[1] === product.category &&
    parameter[2] === product.number &&
    product.surface.type === type &&
    (value === null ? (product.surface.value ?? 0) === 0 : product.surface.value === value) &&
    product.secondSurface === null &&
    (span ? fitsSpan(span, product) : product.template === 0)
  );
}

function fitsSpan(
  { process, hours, above, generating }: Span,
  { template, period, probability, ...product }: Product,
): boolean {
  if (template !== (above === null ? 8 : 9) || period?.process !== process) return false;
  if (!hours.includes(period.lengthMs / HOUR_MS)) return false;
  if (
    generating === null
      ? product.generating === PROBABILITY_FORECAST && above === null
      : product.generating !== generating
  ) {
    return false;
  }
  return above === null || (probability?.type === 1 && probability.upper === above);
}

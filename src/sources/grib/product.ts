// Section 4: what a field is of, at which level and for when. Templates 4.0, 4.1, 4.6, 4.8, 4.9 and 4.10; others are refused.

import { type Period, periodAt } from './period.ts';
import { instantAt } from './reference-time.ts';
import { MISSING_U8, MISSING_U32, type Section } from './section.ts';
import { addDuration } from './time-unit.ts';

/** A fixed surface (code table 4.5); null where the value is missing. */
export interface Surface {
  readonly type: number;
  readonly value: number | null;
}

export interface Probability {
  /** Code table 4.9: 0 below the lower limit, 1 above the upper, 2 between, 3 above the lower, 4 below the upper. */
  readonly type: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface Product {
  readonly template: number;
  readonly category: number;
  readonly number: number;
  /** Code table 4.3: 2 forecast, 4 ensemble forecast, 5 probability forecast, … */
  readonly generating: number;
  readonly surface: Surface;
  /** Null where there is one surface only. */
  readonly secondSurface: Surface | null;
  /**
   * Instant of the value, or the span that it is of; both ends alike for an instant. Where a message contradicts itself the
   * length of its period is another (NDFD of 2011, the first day of a fire weather outlook).
   */
  readonly fromMs: number;
  readonly toMs: number;
  /** How values were combined over the span; null for an instant. */
  readonly period: Period | null;
  readonly probability: Probability | null;
  readonly percentile: number | null;
  /** Number of the ensemble member; null where it is none. */
  readonly member: number | null;
}

/** Octet where the end of the span stands, for those templates that have one. */
const END_OCTET: Readonly<Record<number, number | null>> = {
  0: null,
  1: null,
  6: null,
  8: 35,
  9: 48,
  10: 36,
};

/** Throws GribFault. `referenceMs` is of section 1. */
export function readProduct(section: Section, referenceMs: number): Product {
  const template = section.u16(8);
  const endOctet = END_OCTET[template];
  if (endOctet === undefined) {
    const name = OTHER_TEMPLATES[template];
    throw section.fault(
      'unsupported',
      `product template 4.${template}${name ? ` (${name})` : ''} is not read`,
      8,
    );
  }
  const fromMs = addDuration(section, referenceMs, 18, section.s32(19));
  const toMs = endOctet === null ? fromMs : instantAt(section, endOctet);
  if (toMs < fromMs) throw section.fault('malformed', 'the span ends before it begins', endOctet ?? 8);
  const second = surfaceAt(section, 29);
  return {
    template,
    category: section.u8(10),
    number: section.u8(11),
    generating: section.u8(12),
    surface: surfaceAt(section, 23),
    secondSurface: second.type === MISSING_U8 ? null : second,
    fromMs,
    toMs,
    period: endOctet === null ? null : periodAt(section, endOctet + 7),
    probability: template === 9 ? probabilityAt(section) : null,
    percentile: template === 6 || template === 10 ? percentileAt(section) : null,
    member: template === 1 ? section.u8(36) : null,
  };
}

function surfaceAt(section: Section, octet: number): Surface {
  return { type: section.u8(octet), value: scaled(section, octet + 1) };
}

/** A scale factor in one octet and a scaled value in four. */
function scaled(section: Section, octet: number): number | null {
  if (section.u8(octet) === MISSING_U8 || section.u32(octet + 1) === MISSING_U32) return null;
  const factor = section.s8(octet);
  const value = section.s32(octet + 1);
  // Dividing by a whole power of ten is exact to the last bit where multiplying by its reciprocal is not.
  return factor >= 0 ? value / 10 ** factor : value * 10 ** -factor;
}

function probabilityAt(section: Section): Probability {
  return { type: section.u8(37), lower: scaled(section, 38), upper: scaled(section, 43) };
}

function percentileAt(section: Section): number {
  const percentile = section.u8(35);
  if (percentile > 100) throw section.fault('malformed', `percentile ${percentile}`, 35);
  return percentile;
}

/** Names of templates that are not read (code table 4.0). */
const OTHER_TEMPLATES: Readonly<Record<number, string>> = {
  2: 'derived from an ensemble at a point in time',
  3: 'derived from a cluster over a rectangle at a point in time',
  4: 'derived from a cluster over a circle at a point in time',
  5: 'probability at a point in time',
  7: 'analysis or forecast error',
  11: 'ensemble member over an interval',
  12: 'derived from an ensemble over an interval',
  15: 'spatially processed',
  20: 'radar',
  31: 'satellite',
  32: 'simulated satellite',
  40: 'atmospheric chemical at a point in time',
  44: 'aerosol at a point in time',
  48: 'optical properties of aerosol',
  60: 'reforecast member at a point in time',
  61: 'reforecast member over an interval',
};

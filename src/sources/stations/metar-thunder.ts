// Whether a report tells of thunder or lightning at the station or around it.

import type { MetarHead } from './metar-head.ts';

/** TS, VCTS, +TSRA and RETS (within the hour past); never a trend's. */
const IN_BODY = /^(?:RE)?(?:[-+]|VC)?TS(?:[A-Z]{2})*$/;
/** TSB12, TSE30, TSB12E30, TS OHD … */
const TS_IN_REMARKS = /^TS(?:[BE]\d{2,4}(?:[BE]\d{2,4})*)?$/;
/** LTG, LTGIC, LTGICCG … */
const LIGHTNING = /^LTG[A-Z]*$/;
/** Where lightning is seen: OHD, VC, VCNE, DSNT, ALQDS, W, N-E, NE-SE AND SW, N THRU E. */
const POINT = '(?:N|NE|E|SE|S|SW|W|NW)';
const LOCATION = new RegExp(`^(?:OHD|DSNT|ALQDS|AND|THRU|TO|(?:VC)?${POINT}(?:-${POINT})*|VC)$`);

/**
 * True where anything is told of it near, also where it ended within the hour. Null where the station cannot tell: `TSNO`
 * (FMH-1 chapter 12), or an automatic one without AO2 (common practice, no source); and where it tells of distant lightning
 * alone, which raises nothing and must clear nothing. False otherwise.
 */
export function thunderTold({ body, remarks, automatic }: MetarHead): boolean | null {
  if (body.some((group) => IN_BODY.test(group))) return true;
  if (remarks.some((group) => TS_IN_REMARKS.test(group))) return true;
  const lightning = remarks.flatMap((group, i) => (LIGHTNING.test(group) ? [remarks.slice(i + 1)] : []));
  if (lightning.some((after) => !isDistant(after))) return true;
  if (lightning.length > 0 || remarks.includes('TSNO')) return null;
  return automatic && !remarks.includes('AO2') ? null : false;
}

/**
 * DSNT is beyond 10 statute miles, VC from 5 to 10 and OHD within 5 (FMH-1, 12.7.1 on lightning; from memory). Near is all
 * that is not put beyond: lightning without a distance, or with a nearer place beside the distant one.
 */
function isDistant(after: readonly string[]): boolean {
  const end = after.findIndex((group) => !LOCATION.test(group));
  const where = end < 0 ? after : after.slice(0, end);
  return where[0] === 'DSNT' && !where.some((group) => group === 'OHD' || group.startsWith('VC'));
}

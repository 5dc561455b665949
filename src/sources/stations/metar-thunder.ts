// Whether a report tells of thunder or lightning at the station or around it.

import type { MetarHead } from './metar-head.ts';

/** TS, VCTS, +TSRA and RETS (within the hour past); never a trend's. */
const IN_BODY = /^(?:RE)?(?:[-+]|VC)?TS(?:[A-Z]{2})*$/;
/** TSB12, TSE30, TSB12E30, TS OHD, LTG, LTGICCG … */
const IN_REMARKS = /^(?:TS|TS[BE]\d{2,4}(?:[BE]\d{2,4})*|LTG[A-Z]*)$/;

/**
 * True where anything is told of it, also where it ended within the hour. Null where the station cannot tell: `TSNO`
 * (FMH-1 chapter 12), or an automatic one without AO2 (common practice, no source). False otherwise.
 */
export function thunderTold({ body, remarks, automatic }: MetarHead): boolean | null {
  if (body.some((group) => IN_BODY.test(group))) return true;
  if (remarks.some((group) => IN_REMARKS.test(group))) return true;
  if (remarks.includes('TSNO')) return null;
  return automatic && !remarks.includes('AO2') ? null : false;
}

// How the values of a span were combined (templates 4.8, 4.9, 4.10).

import type { Section } from './section.ts';
import { durationMs } from './time-unit.ts';

/** Code table 4.10. */
export const PROCESSES = {
  0: 'average',
  1: 'accumulation',
  2: 'maximum',
  3: 'minimum',
  4: 'difference',
  5: 'root-mean-square',
  6: 'standard-deviation',
  7: 'covariance',
  8: 'reverse-difference',
  9: 'ratio',
  10: 'standardized-anomaly',
  11: 'summation',
} as const;

export type Process = (typeof PROCESSES)[keyof typeof PROCESSES];

export interface Period {
  /** Null where the code is not one of the table above. */
  readonly process: Process | null;
  readonly processCode: number;
  readonly lengthMs: number;
}

/** The number of time ranges stands at `octet`. More than one (an average of accumulations) is not read. */
export function periodAt(section: Section, octet: number): Period {
  const ranges = section.u8(octet);
  if (ranges !== 1) {
    throw section.fault(
      ranges === 0 ? 'malformed' : 'unsupported',
      `${ranges} time ranges in one product`,
      octet,
    );
  }
  const code = section.u8(octet + 5);
  return {
    process: PROCESSES[code as keyof typeof PROCESSES] ?? null,
    processCode: code,
    lengthMs: durationMs(section, octet + 7, section.u32(octet + 8)),
  };
}

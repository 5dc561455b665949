// What one reading may cost. Everything is counted before it is allocated or walked, so that bytes from outside can ask
// for no more than their reader allows.

import { GribFault } from './fault.ts';

export interface GribLimits {
  /** Memory that one field may take while it is decoded, its message and its values included [bytes]. */
  readonly mostBytes: number;
  /** Steps of one reading: sections, groups, cells and packed bytes. */
  readonly mostSteps: number;
}

/** Room for twice the largest field met (NBM, 3,744,965 cells). */
export const USUAL_LIMITS: GribLimits = { mostBytes: 64 * 1024 * 1024, mostSteps: 64_000_000 };

/** Counts one reading against its limits. */
export class Meter {
  readonly limits: GribLimits;
  bytes = 0;
  steps = 0;

  constructor(limits: GribLimits = USUAL_LIMITS) {
    this.limits = limits;
  }

  /** Before memory is taken. */
  hold(bytes: number, what: string, byte: number): void {
    const next = this.bytes + bytes;
    if (!(next <= this.limits.mostBytes)) {
      throw new GribFault(
        'too-large',
        `${what} would take ${next} bytes, allowed ${this.limits.mostBytes}`,
        byte,
      );
    }
    this.bytes = next;
  }

  /** Before steps are gone. */
  walk(steps: number, what: string, byte: number): void {
    const next = this.steps + steps;
    if (!(next <= this.limits.mostSteps)) {
      throw new GribFault(
        'too-large',
        `${what} would take ${next} steps, allowed ${this.limits.mostSteps}`,
        byte,
      );
    }
    this.steps = next;
  }
}

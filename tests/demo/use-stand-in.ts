// One stand-in for a test file, with a clock that the tests set, and short ways to ask it.

import { afterAll, beforeAll } from 'vitest';
import { clockTimeMs } from '#core/units/local-time.ts';
import type { DemoCell } from '#demo/cells.ts';
import { type StandIn, startStandIn } from '#demo/stand-in.ts';

export const ZONE = 'America/Los_Angeles';

export type Json = { readonly [key: string]: Json } & readonly Json[] & string;

export const placeText = (cell: DemoCell): string => `${cell.place.latDeg},${cell.place.lonDeg}`;

/** Starts before the tests of the file and closes after them. */
export function useStandIn() {
  let nowMs = 0;
  let standIn: StandIn | null = null;
  beforeAll(async () => {
    standIn = await startStandIn({ nowMs: () => nowMs });
  });
  afterAll(() => standIn?.close());
  const baseUrl = (): string => standIn?.baseUrl ?? '';
  const get = (path: string, headers: Record<string, string> = {}) =>
    fetch(`${baseUrl()}${path}`, { headers, redirect: 'manual' });
  return {
    baseUrl,
    get,
    json: async (path: string): Promise<Json> => (await (await get(path)).json()) as Json,
    nowMs: () => nowMs,
    /** Sets the clock to a local date and time. */
    at: (date: string, time: string): void => {
      nowMs = clockTimeMs(date, time, ZONE);
    },
    later: (ms: number): void => {
      nowMs += ms;
    },
  };
}

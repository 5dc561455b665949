// A simulated shift as it was played: what was measured and judged, what was tapped, texted and answered.

import type { Verdict } from '#core/rules/finding.ts';
import type { MessageAnswer } from '#publish/wire-watch.ts';
import type { Language } from '#publish/wording/show.ts';

export interface PlayedPerson {
  readonly id: string;
  readonly name: string;
  readonly role: 'crew' | 'office' | 'dispatch';
  readonly language: Language;
}

export type PlayedEntry =
  | {
      readonly kind: 'reading';
      readonly atMs: number;
      readonly windSpeedMps: number;
      readonly windFromDeg: number;
      readonly gustMps: number;
      readonly humidityPct: number;
      /** Live, just after the reading: the worse of plan and watch. */
      readonly verdict: Verdict;
      /** It is a hold because nobody can say. */
      readonly unknown: boolean;
    }
  | { readonly kind: 'turn'; readonly atMs: number }
  | {
      readonly kind: 'tap';
      readonly atMs: number;
      readonly tap: 'lit' | 'charging' | 'covered';
      readonly by: PlayedPerson;
    }
  | {
      readonly kind: 'text';
      readonly atMs: number;
      readonly id: string;
      readonly to: PlayedPerson;
      readonly text: string;
    }
  | { readonly kind: 'answer'; readonly atMs: number; readonly by: PlayedPerson; readonly said: string };

export interface PlayedDay {
  readonly seed: number;
  readonly site: string;
  readonly timeZone: string;
  readonly lightUpMs: number;
  readonly lastChargeMs: number;
  readonly coveredByMs: number;
  /** In the order in which they came. */
  readonly entries: readonly PlayedEntry[];
  /** What the service itself says that it told, and what became of it. */
  readonly messages: readonly MessageAnswer[];
}

// Everything that one turn of work leaves behind, written together or not at all.

import type { NewEvent } from '#core/events/event.ts';
import type { CellState } from './cell-state.ts';
import type { NewDocument } from './document.ts';
import type { PlaceState } from './place-state.ts';
import type { PlanRecord } from './plan-record.ts';

/** What is new of a place: only what is named is written, so that two who write different things lose nothing. */
export type PlacePatch = Pick<PlaceState, 'place'> & Partial<Omit<PlaceState, 'place' | 'version'>>;

export interface Batch {
  readonly documents?: readonly NewDocument[];
  /** Replace what is known of these cells; the version is counted by the store. */
  readonly cells?: readonly Omit<CellState, 'version'>[];
  readonly places?: readonly PlacePatch[];
  /** Places whose alerts were read again and are the same. */
  readonly alertsRead?: readonly { readonly places: readonly string[]; readonly fetchedAtMs: number }[];
  /** One that is there already is passed over, and its events with it. */
  readonly plans?: readonly PlanRecord[];
  /**
   * By site: the plan that was its newest when these were made; null: none. Where another has become the newest meanwhile, the
   * site's plans are passed over: made from older limits, they would stand behind the newer plan and before it be told as news.
   */
  readonly follows?: ReadonlyMap<string, string | null>;
  /** Positions are given by the store. */
  readonly events?: readonly NewEvent[];
  /** Claims of ours that are now done. Throws `claim_lost`, and writes nothing, where one is no longer ours. */
  readonly done?: readonly { readonly work: string; readonly cycle: number; readonly worker: string }[];
}

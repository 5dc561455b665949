// What programs that must miss nothing ask for: the log of what happened, from a position on.

import type { EventKind, LoggedEvent } from '#core/events/event.ts';
import type { Viewer } from './viewer.ts';

export interface EventsAsked {
  /** Position: what came after it; null: from the oldest that is kept. */
  readonly after: number | null;
  readonly most: number;
  /** `organisation/id`; null: all that the viewer may see. */
  readonly siteKey: string | null;
  /** Null: all. */
  readonly kinds: readonly EventKind[] | null;
}

export interface EventsSeen {
  readonly events: readonly LoggedEvent[];
  /** Where to read on: every event up to it was looked at. */
  readonly next: number;
  /** There are more already. */
  readonly more: boolean;
  /** The last position that retention has dropped after the one asked for; null: nothing is missing. */
  readonly missingUpTo: number | null;
}

export interface EventDesk {
  /** Throws ServiceError `bad_query` for a position that no event has yet, `store_unavailable`. */
  after(viewer: Viewer, asked: EventsAsked): Promise<EventsSeen>;
  /** Position of the last event of all. */
  last(): Promise<number>;
  /** Calls back when this process has added events; gives back what stops it. */
  onAdded(added: () => void): () => void;
}

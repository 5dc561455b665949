// What the board is made from: answers as the API gives them, and what the reader asked.

import type { SiteContact } from '#core/site/site-contact.ts';
import type { Markup } from '#publish/page/html.ts';
import type { Query } from '#publish/page/links.ts';
import type { SmokeAnswer, SmokeSourcesAnswer } from '#publish/wire-smoke.ts';
import type { BurnAnswer, NowAnswer, TapAnswer } from '#publish/wire-watch.ts';
import type { AskedWhy } from '#publish/wording/board-words.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';

export interface BoardSite {
  readonly id: string;
  readonly name: string;
  readonly at: readonly [number, number];
  readonly timeZone: string;
  readonly contact: SiteContact;
}

export interface BoardBurn {
  readonly pin: string;
  readonly site: BoardSite;
  /** The same as GET /v1/sites/{id}/now; null where nobody can say. */
  readonly live: NowAnswer | null;
  readonly burn: Pick<BurnAnswer, 'state' | 'litAt' | 'since'>;
  readonly lastTap: Pick<TapAnswer, 'tap' | 'tappedAt' | 'by'> | null;
  readonly smoke: SmokeAnswer;
}

/** An open burn whose site is not in force: nobody can say where it lies. */
export interface BoardUnplaced {
  /** Id of the site. */
  readonly site: string;
  readonly burn: Pick<BurnAnswer, 'id' | 'state' | 'since'>;
}

export interface BoardGo {
  readonly pin: string;
  readonly site: BoardSite;
  readonly live: NowAnswer | null;
  /** Go windows in which may still be lit, clipped to the day. */
  readonly windows: readonly { readonly from: string; readonly to: string }[];
  readonly coveredBy: string | null;
  readonly smoke: SmokeAnswer;
}

export interface PlaceChoice {
  readonly value: string;
  readonly label: string;
}

export interface SmokeQuestion {
  readonly typed: { readonly at: string; readonly place: string; readonly time: string };
  readonly choices: readonly PlaceChoice[];
  readonly faults: readonly { readonly field: 'at' | 'time'; readonly why: AskedWhy }[];
  /** Null: nothing was asked, or it cannot be answered. */
  readonly answer: SmokeSourcesAnswer | null;
  /** Name of the place that was chosen; null where it was told as a position. */
  readonly place: string | null;
}

/** What every page of the board shows. */
export interface BoardPits {
  readonly writtenMs: number;
  /** Whose clock the page as a whole goes by. */
  readonly timeZone: string;
  readonly burns: readonly BoardBurn[];
  /** On every page of the board, before the others. */
  readonly unplaced: readonly BoardUnplaced[];
  readonly burnCount: number;
  readonly goes: readonly BoardGo[];
  readonly goCount: number;
  readonly page: number;
  readonly pages: number;
  /** Loads anew by itself. */
  readonly isRefreshing: boolean;
  readonly demo: boolean;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  /** What was asked for in the address, but for the question. */
  readonly query: Query;
}

export interface BoardView extends BoardPits {
  readonly question: SmokeQuestion;
  readonly map: Markup | null;
  /** There is a map with tiles, too. */
  readonly hasGround: boolean;
}

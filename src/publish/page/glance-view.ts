// What the glance is made from. The answer is that of the API; nothing is judged anew.

import type { BurnAnswer, NowAnswer } from '#publish/wire-watch.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import type { Query } from './links.ts';
import type { Phone } from './phone-marks.ts';

export interface GlanceView {
  readonly live: NowAnswer;
  /** Open messages that nobody has answered: what "I have seen this" acknowledges. */
  readonly toAnswer: readonly string[];
  /** Open burns beside that of the answer. */
  readonly others: readonly BurnAnswer[];
  /** Burns of the last days that were covered: they keep their places among those that were lit in one minute. */
  readonly ended: readonly BurnAnswer[];
  /** The burn covered last, within the time in which that may have been a slip; null: none. */
  readonly covered: BurnAnswer | null;
  /** Null where whoever reads may not tap. */
  readonly taps: TapForm | null;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  readonly query: Query;
  readonly phone: Phone;
}

export interface TapForm {
  /** Made anew for each page: a button pressed twice taps once. */
  readonly form: string;
  /** The name that was written before; empty: none was. */
  readonly by: string;
  /** Whose the key is. */
  readonly key: string;
}

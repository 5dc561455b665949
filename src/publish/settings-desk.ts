// What the settings ask of the rest beside the definitions: what the coming week becomes by a change that is not made yet.

import type { Plan } from '#core/plan/plan.ts';
import type { DefinitionKind } from '#store/definition.ts';

export interface Proposed {
  readonly organisation: string;
  /** That whoever asks may see; null: all. */
  readonly sites: readonly string[] | null;
  readonly kind: DefinitionKind;
  readonly id: string;
  /** Sound, as the configuration file would hold it; null: taken out. */
  readonly body: unknown;
}

export interface ProposedWeek {
  readonly key: string;
  readonly id: string;
  readonly name: string;
  /** Null where it is not there now, or nothing is held for it. */
  readonly before: Plan | null;
  /** Null where it is no longer there, or nothing is held for its place. */
  readonly after: Plan | null;
  readonly why: 'noForecast' | 'newPlace' | 'siteGone' | 'siteNew' | null;
}

export interface ProposedWeeks {
  readonly sites: readonly ProposedWeek[];
  /** Concerned too, and not planned. */
  readonly more: number;
}

export interface SettingsDesk {
  /**
   * A week from today on for each site that the change concerns, by the forecasts that are held, made by the same core as
   * every plan. At most `most` sites. Nothing is stored, no source is asked. Throws ServiceError `store_unavailable`.
   */
  weeks(proposed: Proposed, most: number): Promise<ProposedWeeks>;
}

// Conditions as text: every look at a site writes all of them, and most of their figures are null.

import { type Condition, type ConditionFigures, NO_FIGURES } from '#core/watch/condition.ts';
import { fromJson } from '#store/json.ts';

export const stoodText = (conditions: readonly Condition[]): string =>
  JSON.stringify(conditions, (_, value: unknown) => (value === null ? undefined : value));

type Kept = Omit<Condition, 'asOfMs' | 'figures'> &
  Partial<Pick<Condition, 'asOfMs'>> & { readonly figures: Partial<ConditionFigures> };

/** Null: none were kept. */
export const asStood = (text: string | null): Condition[] =>
  (text === null ? [] : fromJson<Kept[]>(text)).map(({ asOfMs = null, figures, ...condition }) => ({
    ...condition,
    asOfMs,
    figures: { ...NO_FIGURES, ...figures },
  }));

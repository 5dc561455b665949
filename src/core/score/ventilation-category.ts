// Ventilation categories: a table's bounds in the table's own unit, each with a stated side.

import { coreOf } from '#core/units/quantity.ts';

export interface CategoryTable {
  readonly name: string;
  readonly unit: string;
  /** Rising bounds between the categories 1, 2, … in the table's unit. */
  readonly bounds: readonly number[];
  /** Which category a rate exactly on a bound belongs to. */
  readonly onBound: 'lower' | 'upper';
}

/** Bound `index` of a table in m²/s. */
export function categoryBoundM2ps(table: CategoryTable, index: number): number {
  const bound = table.bounds[index];
  if (bound === undefined) throw new RangeError(`table ${table.name} has no bound ${index}`);
  return coreOf(bound, table.unit);
}

/** Category 1 … n of a ventilation rate [m²/s]; null for a rate that is no number. */
export function ventilationCategory(rateM2ps: number, table: CategoryTable): number | null {
  if (Number.isNaN(rateM2ps)) return null;
  let category = 1;
  for (const index of table.bounds.keys()) {
    const bound = categoryBoundM2ps(table, index);
    const onIt = Math.abs(rateM2ps - bound) <= 1e-9 * Math.max(1, bound);
    if (onIt ? table.onBound === 'upper' : rateM2ps > bound) category += 1;
  }
  return category;
}

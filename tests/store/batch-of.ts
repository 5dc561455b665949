// A batch with one of everything under an id, and what of it is there.

import type { Batch } from '#store/batch.ts';
import type { Store } from '#store/store.ts';
import { cellOf, documentOf, eventOf, planOf } from '../builders/store.ts';

const documentsOf = (id: string) => [
  documentOf(`definition ${id}`, 'definition'),
  documentOf(`forecast ${id} ${'x'.repeat(3000)}`),
  documentOf('[]', 'alerts'),
];

export function batchOf(id: string): Batch {
  const documents = documentsOf(id);
  const site = `o/${id}`;
  return {
    documents,
    cells: [cellOf(id, { document: documents[1]?.hash ?? null })],
    plans: [planOf(site, 1, { planId: id }, documents)],
    events: [eventOf(site, { subject: id }), eventOf(site, { subject: id })],
  };
}

export interface Kept {
  /** Ids of which everything is there. */
  readonly whole: ReadonlySet<string>;
  /** Ids of which a part is there. Must be empty. */
  readonly broken: readonly string[];
  readonly positions: readonly number[];
}

export async function keptIn(store: Store): Promise<Kept> {
  const events = await store.events.after({ after: 0, most: 1_000_000 });
  const plans = new Map((await store.plans.newest()).map((plan) => [plan.planId, plan]));
  const cells = new Map((await store.forecasts.cells()).map((cell) => [cell.cell, cell]));
  // Those of looks at burns are theirs.
  const eventsOf = Map.groupBy(
    events.filter(({ kind, subject }) => kind === 'verdict-changed' && !subject.startsWith('look ')),
    (event) => event.subject,
  );
  const ids = new Set([...eventsOf.keys(), ...plans.keys(), ...cells.keys()]);
  const known = await store.documents.known([...ids].flatMap((id) => documentsOf(id).map((d) => d.hash)));
  const isWhole = (id: string): boolean => {
    const documents = documentsOf(id);
    return (
      eventsOf.get(id)?.length === 2 &&
      plans.get(id)?.basis.document === documents[1]?.hash &&
      cells.get(id)?.document === documents[1]?.hash &&
      documents.every((d) => known.has(d.hash))
    );
  };
  return {
    whole: new Set([...ids].filter(isWhole)),
    broken: [...ids].filter((id) => !isWhole(id)),
    positions: events.map((event) => event.position),
  };
}

// A store that a test fills by hand, and that writes down what is asked of it.

import { hash } from 'node:crypto';
import { ServiceError } from '#errors.ts';
import type { CellState } from '#store/cell-state.ts';
import type { Definition } from '#store/definition.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { Store } from '#store/store.ts';

export const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
export const PLACE = '38.97,-92.33';
export const CELL = 'LSX 10,20';

export interface FakeStore {
  readonly store: Store;
  readonly asked: string[];
  readonly cells: Map<string, CellState>;
  readonly places: Map<string, PlaceState>;
  readonly documents: Map<string, Uint8Array>;
  readonly definitions: Definition[];
  /** Set: the next question of that name fails. */
  failing: string | null;
  /** Puts bytes in and gives their hash. */
  keep(text: string): string;
  put(kind: Definition['kind'], id: string, body: unknown): void;
  putCell(change: Partial<CellState>): void;
  putPlace(change: Partial<PlaceState>): void;
}

const SHIFT = { days: ['mon'], from: '07:00', to: '17:00' };

export const siteBody = (id: string, more: object = {}): object => ({
  id,
  name: id,
  at: [38.97, -92.33],
  limits: 'valley',
  shift: SHIFT,
  ...more,
});

export function fakeStore(): FakeStore {
  const asked: string[] = [];
  const fake = { failing: null as string | null };
  let revision = 0;
  const ask = async (name: string): Promise<void> => {
    asked.push(name);
    if (fake.failing !== name) return;
    fake.failing = null;
    throw new ServiceError('store_unavailable', `no ${name}`, { retryable: true });
  };
  const cells = new Map<string, CellState>();
  const places = new Map<string, PlaceState>();
  const documents = new Map<string, Uint8Array>();
  const definitions: Definition[] = [];
  const store = {
    marks: async () => {
      await ask('marks');
      return {
        definitions: String(revision),
        keys: '0',
        cells: new Map([...cells].map(([name, { version }]) => [name, version])),
        places: new Map(
          [...places].map(([name, { version, alertsFetchedAtMs }]) => [name, { version, alertsFetchedAtMs }]),
        ),
      };
    },
    definitions: {
      current: async () => {
        await ask('definitions');
        return definitions;
      },
    },
    keys: {
      all: async () => {
        await ask('keys');
        return [];
      },
    },
    forecasts: {
      cells: async (names: readonly string[]) => {
        await ask(`cells ${names.join(' ')}`);
        return names.flatMap((name) => cells.get(name) ?? []);
      },
      places: async (names: readonly string[]) => {
        await ask(`places ${names.join(' ')}`);
        return names.flatMap((name) => places.get(name) ?? []);
      },
    },
    documents: {
      read: async (of: string) => {
        await ask('document');
        const bytes = documents.get(of);
        return bytes ? { kind: 'gridpoint', bytes } : null;
      },
    },
  } as unknown as Store;
  return Object.assign(fake, {
    store,
    asked,
    cells,
    places,
    documents,
    definitions,
    keep(text: string) {
      const of = hash('sha256', text, 'hex');
      documents.set(of, Buffer.from(text));
      return of;
    },
    put(kind: Definition['kind'], id: string, body: unknown) {
      revision += 1;
      const at = definitions.findIndex((d) => d.kind === kind && d.id === id);
      const row = { organisation: 'own', kind, id, body, revision, origin: 'file' } as unknown as Definition;
      definitions.splice(at < 0 ? definitions.length : at, at < 0 ? 0 : 1, row);
    },
    putCell(change: Partial<CellState>) {
      const before = cells.get(CELL) ?? ({ cell: CELL, fault: null, version: 0 } as CellState);
      cells.set(CELL, { ...before, ...change, version: before.version + 1 });
    },
    putPlace(change: Partial<PlaceState>) {
      const before = places.get(PLACE) ?? ({ place: PLACE, fault: null, version: 0 } as PlaceState);
      places.set(PLACE, { ...before, ...change, version: before.version + 1 });
    },
  });
}

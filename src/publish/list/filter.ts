// Which sites a list shows, and how many there are of each kind.

import type { ElementLimit } from '#core/score/limit.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { Mark } from '#publish/page/standing.ts';
import type { Judged } from './needs.ts';

export const MARKS = ['go', 'hold', 'stop', 'unsaid'] as const satisfies readonly Mark[];
export const SHOWS = ['needs', 'burning', 'changed'] as const;

export interface ListFilter {
  /** Words that all must be found in name, id, limit set or whose limits they are; null: any. */
  readonly q: string | null;
  readonly verdict: Mark | null;
  readonly day: 'today' | 'tomorrow';
  readonly show: (typeof SHOWS)[number] | null;
}

export interface ListCounts {
  readonly total: number;
  readonly today: Readonly<Record<Mark, number>>;
  readonly tomorrow: Readonly<Record<Mark, number>>;
  readonly needs: number;
  readonly burning: number;
  readonly changed: number;
}

const SHOWN: Readonly<Record<(typeof SHOWS)[number], (one: Judged) => boolean>> = {
  needs: ({ needs }) => needs.length > 0,
  burning: ({ burn }) => burn !== null,
  changed: ({ changes }) => changes.length > 0,
};

export function filtered<T extends Judged>(all: readonly T[], { q, verdict, day, show }: ListFilter): T[] {
  const words = folded(q ?? '')
    .split(/\s+/)
    .filter((word) => word !== '');
  return all.filter(
    (one) =>
      (verdict === null || one.marks[day] === verdict) &&
      (show === null || SHOWN[show](one)) &&
      (words.length === 0 || hasAll(wordsOf(one.site), words)),
  );
}

const hasAll = (text: string, words: readonly string[]): boolean =>
  words.every((word) => text.includes(word));

/** Without case and accents: an office types as it hears. */
const folded = (text: string): string => text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();

/** Names, and what others know a site by: permits stand beside the limits that are theirs. */
function wordsOf({ id, name, limits }: DeskSite): string {
  const sources = [...limits.elements, ...limits.clock, ...limits.seasons].map(
    ({ source }: Pick<ElementLimit, 'source'>) => source,
  );
  return folded([name, id, limits.name, ...new Set(sources)].join('\n'));
}

export function countsOf(all: readonly Judged[]): ListCounts {
  const none = (): Record<Mark, number> => ({ go: 0, hold: 0, stop: 0, unsaid: 0 });
  const [today, tomorrow] = [none(), none()];
  for (const one of all) {
    today[one.marks.today] += 1;
    tomorrow[one.marks.tomorrow] += 1;
  }
  const shown = (show: (typeof SHOWS)[number]): number => all.filter(SHOWN[show]).length;
  return {
    total: all.length,
    today,
    tomorrow,
    needs: shown('needs'),
    burning: shown('burning'),
    changed: shown('changed'),
  };
}

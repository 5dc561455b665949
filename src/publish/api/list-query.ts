// What the list of sites is asked for. A form sends empty fields too: they ask for nothing.

import { z } from 'zod';
import { type ListFilter, MARKS, SHOWS } from '#publish/list/filter.ts';
import { pageQuery } from './query.ts';

const narrowing = {
  q: z.string().max(80).optional(),
  verdict: z.enum(['', ...MARKS], `expected one of ${MARKS.join(', ')}`).optional(),
  day: z.enum(['', 'today', 'tomorrow'], 'expected today or tomorrow').optional(),
  show: z.enum(['', ...SHOWS], `expected one of ${SHOWS.join(', ')}`).optional(),
};

/** Which of them, and which hundred of these. */
export const listQuery = pageQuery.extend({
  ...narrowing,
  page: z.coerce.number().int().min(1).max(10_000).optional(),
});

export const listFileQuery = pageQuery.omit({ look: true }).extend(narrowing);

export type ListQuery = z.output<typeof listQuery>;

export const filterOf = ({
  q,
  verdict,
  day,
  show,
}: Pick<ListQuery, 'q' | 'verdict' | 'day' | 'show'>): ListFilter => ({
  q: q?.trim() || null,
  verdict: verdict || null,
  day: day || 'today',
  show: show || null,
});

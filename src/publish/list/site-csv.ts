// Burns and windows of a site as tables: a row for each, under columns that stay. Columns may be added at the end; none is
// renamed, removed or given another meaning.

import type { Tap } from '#core/watch/burn.ts';
import type { WindowsAnswer } from '#publish/wire.ts';
import type { BurnAnswer } from '#publish/wire-watch.ts';
import { type Cell, csvText } from './csv.ts';

const TAPS = [
  'lit',
  'charging',
  'burning-down',
  'put-out-early',
  'covered',
] as const satisfies readonly Tap[];

export const BURN_COLUMNS = [
  'site',
  'burn',
  'state',
  'opened_at',
  'lit_at',
  'closed_at',
  'since',
  ...TAPS.map((tap) => `${tap.replaceAll('-', '_')}_tapped_at`),
  'tapped_by',
  'notes',
] as const;

export const burnsCsv = (burns: readonly BurnAnswer[]): string => csvText(BURN_COLUMNS, burns.map(burnRow));

/** Of taps that count the last of its kind. */
function burnRow({ site, id, state, openedAt, litAt, closedAt, since, taps }: BurnAnswer): Cell[] {
  const counting = taps.filter(({ counts }) => counts);
  const tapped = TAPS.map((kind) => counting.findLast(({ tap }) => tap === kind)?.tappedAt ?? null);
  const said = (texts: readonly string[]): string | null =>
    texts.filter((text) => text !== '').join('; ') || null;
  return [
    ...[site, id, state, openedAt, litAt, closedAt, since],
    ...tapped,
    said([...new Set(counting.map(({ by }) => by))]),
    said(counting.map(({ note }) => note)),
  ];
}

export const WINDOW_COLUMNS = [
  'site',
  'verdict',
  'from',
  'to',
  'standing',
  'light_up_by',
  'unknown',
  'reason_code',
  'reason',
  'tightest_element',
  'tightest_at',
  'tightest_value',
  'tightest_bound',
  'tightest_room',
  'tightest_unit',
  'tightest_source',
] as const;

export const windowsCsv = ({ site, windows }: WindowsAnswer): string =>
  csvText(
    WINDOW_COLUMNS,
    windows.map(({ verdict, from, to, standing, lightUpBy, reasons: [gravest], tightest: t }): Cell[] => [
      ...[site, verdict, from, to, standing, lightUpBy],
      // Nobody can say: of a go that is never so.
      verdict === 'hold' && gravest?.unknown === true ? 'true' : 'false',
      gravest?.code ?? null,
      gravest?.text ?? null,
      ...(t === null
        ? [null, null, null, null, null, null, null]
        : [t.element, t.at, t.value, t.bound, t.room, t.unit, t.source]),
    ]),
  );

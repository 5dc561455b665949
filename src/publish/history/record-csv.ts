// The record of a day as a table: everything that was planned, told, tapped, noticed and measured, in the order of its
// moments.

import { type Cell, csvText } from '#publish/list/csv.ts';
import type { HistoryView, Moved } from '#publish/page/history-view.ts';

export const RECORD_COLUMNS = [
  'at',
  'record',
  'what',
  'verdict',
  'light_up',
  'last_charge',
  'covered_by',
  'who',
  'outcome',
  'received_at',
  'delivered_at',
  'counts',
  'wind_from_deg',
  'wind_speed_mps',
  'gust_mps',
  'relative_humidity_pct',
  'beyond',
  'text',
  'source',
] as const;

type Row = Partial<Record<(typeof RECORD_COLUMNS)[number], Cell>> & { readonly at: string };

export function recordCsv(view: HistoryView): string {
  const rows = [
    ...planRows(view),
    ...toldRows(view),
    ...tapRows(view),
    ...noticedRows(view),
    ...observedRows(view),
  ];
  const inOrder = rows
    .map((row) => ({ row, ms: Date.parse(row.at) }))
    .sort((a, b) => a.ms - b.ms)
    .map(({ row }) => RECORD_COLUMNS.map((name) => row[name] ?? null));
  return csvText(RECORD_COLUMNS, inOrder);
}

const movedText = (moved: Moved): string => {
  if (moved.kind === 'verdict') return `verdict ${moved.from} > ${moved.to}`;
  return moved.kind === 'time' ? `${moved.time} ${moved.from ?? 'none'} > ${moved.to ?? 'none'}` : moved.kind;
};

const planRows = ({ plans }: HistoryView): Row[] =>
  plans.map((plan) => ({
    at: plan.madeAt,
    record: 'plan',
    what: plan.cause,
    verdict: plan.cannotSay ? 'cannot-say' : plan.verdict,
    light_up: plan.lightUp,
    last_charge: plan.lastCharge,
    covered_by: plan.coveredBy,
    received_at: plan.receivedAt,
    text: plan.moved === null ? 'first' : plan.moved.map(movedText).join('; '),
    source: `${plan.id}, document ${plan.document}, version ${plan.program}`,
  }));

const toldRows = ({ told }: HistoryView): Row[] =>
  told.flatMap((message): Row[] => [
    ...message.deliveries.map((d, i) => ({
      at: d.settledAt ?? d.dueAt,
      record: 'told',
      what: message.kind,
      verdict: message.verdict,
      who: d.contact,
      outcome: d.outcome,
      delivered_at: d.deliveredAt,
      text: message.said[i] ?? message.text,
      source: `${message.id}, ${d.channel}`,
    })),
    ...message.answers.map((answer) => ({
      at: answer.at,
      record: 'answer',
      what: answer.answer,
      who: answer.contact,
      source: `${message.id}, ${answer.via}`,
    })),
  ]);

const tapRows = ({ burns }: HistoryView): Row[] =>
  burns.flatMap((burn) =>
    burn.taps.map((tap) => ({
      at: tap.tappedAt,
      record: 'tap',
      what: tap.tap,
      who: tap.by,
      received_at: tap.receivedAt,
      counts: tap.counts ? 'yes' : 'no',
      text: tap.note,
      source: [burn.id, tap.from, ...(tap.corrects === null ? [] : [`corrects ${tap.corrects}`])].join(', '),
    })),
  );

const noticedRows = ({ noticed }: HistoryView): Row[] =>
  noticed.map(({ at, kind, verdict, text, untold }) => ({
    at,
    record: 'notice',
    what: kind,
    verdict,
    outcome: untold ? 'not told' : null,
    text,
  }));

const observedRows = ({ observed }: HistoryView): Row[] =>
  observed.map(({ observation: o, beyond }) => ({
    at: o.observedAt,
    record: 'observation',
    what: o.wind,
    received_at: o.receivedAt,
    wind_from_deg: o.windFrom,
    wind_speed_mps: o.windSpeedMps,
    gust_mps: o.gustMps,
    relative_humidity_pct: o.relativeHumidityPct,
    beyond: beyond.map(({ value, class: beyondClass }) => `${value} ${beyondClass}`).join('; '),
    source: `${o.station}, ${o.quality}`,
  }));

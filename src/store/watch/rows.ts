// Rows as records and back.

import type { Selectable } from 'kysely';
import type { Answer } from '#core/notices/answer.ts';
import { type Delivery, deliveryId } from '#core/notices/delivery.ts';
import type { BurnTap, Tap } from '#core/watch/burn.ts';
import { fromJson, toJson } from '#store/json.ts';
import type { KeptDelivery, KeptObservation } from './records.ts';
import type { WatchTables } from './tables.ts';

type Row<T extends keyof WatchTables> = Selectable<WatchTables[T]>;

export const tapRow = (site: string, { by, from, withdraws, ...tap }: BurnTap): Row<'burnTaps'> => ({
  site,
  id: tap.id,
  burn: tap.burn,
  tap: tap.tap,
  tappedAtMs: tap.tappedAtMs,
  receivedAtMs: tap.receivedAtMs,
  tappedBy: by,
  tappedFrom: from,
  corrects: tap.corrects,
  withdraws: Number(withdraws),
  note: tap.note,
});

export const asTap = ({ site: _, tappedBy, tappedFrom, ...row }: Row<'burnTaps'>): BurnTap => ({
  ...row,
  tap: row.tap as Tap,
  by: tappedBy,
  from: tappedFrom,
  withdraws: row.withdraws !== 0,
});

export const observationRow = (site: string, o: KeptObservation): Row<'observations'> => ({
  site,
  station: o.station,
  observedAtMs: o.observedAtMs,
  revision: o.revision,
  receivedAtMs: o.receivedAtMs,
  body: toJson(o),
});

export const asObservation = (row: Row<'observations'>): KeptObservation => fromJson(row.body);

export const deliveryRow = ({ to, asked, parts, ...d }: Delivery): Row<'deliveries'> => ({
  id: deliveryId({ to, asked, parts, ...d }),
  message: d.message,
  site: d.site,
  contact: d.contact,
  step: d.step,
  way: d.way,
  repeat: d.repeat,
  channel: d.channel,
  address: to,
  asked: Number(asked),
  parts: toJson(parts),
  urgency: d.urgency,
  dueAtMs: d.dueAtMs,
  notBeforeMs: d.notBeforeMs,
  validUntilMs: d.validUntilMs,
  triedAtMs: d.triedAtMs,
  tries: 0,
  worker: null,
  token: 0,
  leaseUntilMs: null,
  outcome: d.outcome,
  settledAtMs: d.settledAtMs,
  detail: d.detail,
  said: null,
  deliveredAtMs: null,
});

export function asDelivery(row: Row<'deliveries'>): KeptDelivery {
  const { worker: _worker, token: _token, leaseUntilMs: _lease, address, asked, parts, outcome, ...d } = row;
  return {
    ...d,
    to: address,
    asked: asked !== 0,
    parts: fromJson<number[]>(parts),
    outcome: outcome as Delivery['outcome'],
  };
}

export const asAnswer = (row: Row<'answers'>): Answer => ({
  ...row,
  said: row.said as Answer['said'],
  via: row.via as Answer['via'],
});

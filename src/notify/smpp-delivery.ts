// What a gateway delivers to us: what became of a text (a receipt), or a text that somebody sent (SMPP 3.4, section 4.6
// and appendix B; the text of a receipt is only customary, so its fields are looked for one by one).

import type { Pdu } from 'smpp';
import type { InboundText, Receipt } from './channel.ts';
import { type NationalNumbers, withCountry } from './national-number.ts';

export type Delivery =
  | { readonly kind: 'receipt'; readonly receipt: Receipt }
  | { readonly kind: 'text'; readonly text: Omit<InboundText, 'id'> }
  /** Nothing of use: acknowledged and dropped. */
  | { readonly kind: 'none' };

const STATES: Readonly<Record<string, Receipt['state']>> = {
  DELIVRD: 'delivered',
  ACCEPTD: 'pending',
  ENROUTE: 'pending',
  EXPIRED: 'expired',
  UNDELIV: 'failed',
  REJECTD: 'failed',
  DELETED: 'failed',
};

/** Of the field message_state (section 5.2.28). */
const STATE_BY_NUMBER: readonly (Receipt['state'] | null)[] = [
  null,
  'pending',
  'delivered',
  'expired',
  'failed',
  'failed',
  'pending',
  null,
  'failed',
];

/** Bits of esm_class that say what kind of message it is. */
const MESSAGE_TYPE = 0x3c;
const RECEIPT = 0x04;

export function readDelivery(pdu: Pdu, national: NationalNumbers | null): Delivery {
  const { text, udh } = messageOf(pdu);
  const type = Number(pdu['esm_class'] ?? 0) & MESSAGE_TYPE;
  if (type === RECEIPT) return receiptOf(pdu, text ?? '');
  if (type !== 0 || text === null) return { kind: 'none' };
  return {
    kind: 'text',
    text: {
      from: senderOf(pdu, national),
      to: String(pdu['destination_addr'] ?? ''),
      text,
      continues: partOf(udh) > 1,
    },
  };
}

/** Types of number (section 5.2.5). */
const INTERNATIONAL = 1;
const NATIONAL = 2;

/** As contacts have it, where that can be told. */
function senderOf(pdu: Pdu, national: NationalNumbers | null): string {
  const from = String(pdu['source_addr'] ?? '');
  const type = Number(pdu['source_addr_ton'] ?? 0);
  if (!/^\d+$/.test(from) || type > NATIONAL) return from;
  if (type === INTERNATIONAL) return `+${from}`;
  return (national && withCountry(from, national, type === NATIONAL)) ?? from;
}

function receiptOf(pdu: Pdu, text: string): Delivery {
  const field = (name: string) => new RegExp(`\\b${name}:(\\S+)`, 'i').exec(text)?.[1] ?? null;
  const id = pdu['receipted_message_id'];
  const reference = typeof id === 'string' && id !== '' ? id.replace(/\0+$/, '') : field('id');
  const byNumber = STATE_BY_NUMBER[Number(pdu['message_state'] ?? 0)] ?? null;
  const state = byNumber ?? STATES[field('stat')?.toUpperCase() ?? ''] ?? null;
  if (reference === null || state === null) return { kind: 'none' };
  return { kind: 'receipt', receipt: { reference, state, code: field('err') } };
}

/** The package decodes what its coding names; binary stays bytes and is no text. */
function messageOf(pdu: Pdu): { text: string | null; udh: readonly Uint8Array[] } {
  const short = partsOf(pdu['short_message']);
  const payload = partsOf(pdu['message_payload']);
  const { message, udh } =
    short.message === '' || short.message === null ? { ...payload, udh: short.udh } : short;
  return { text: message ?? short.message, udh };
}

function partsOf(field: unknown): { message: string | null; udh: readonly Uint8Array[] } {
  if (typeof field === 'string') return { message: field, udh: [] };
  if (typeof field !== 'object' || field === null || !('message' in field)) return { message: null, udh: [] };
  const udh = 'udh' in field && Array.isArray(field.udh) ? (field.udh as Uint8Array[]) : [];
  if (typeof field.message === 'string') return { message: field.message, udh };
  return { message: field.message instanceof Uint8Array && field.message.length === 0 ? '' : null, udh };
}

/** Which part of a longer text (3GPP TS 23.040, section 9.2.3.24: elements 00 and 08); 1 where it is whole. */
function partOf(udh: readonly Uint8Array[]): number {
  for (const element of udh) {
    if (element[0] === 0x00 && element.length >= 5) return element[4] as number;
    if (element[0] === 0x08 && element.length >= 6) return element[5] as number;
  }
  return 1;
}

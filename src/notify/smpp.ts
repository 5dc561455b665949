// Texts over SMPP 3.4, the language of the gateways themselves. The alphabet is ours to say: one septet in each byte of the
// gateway's default alphabet, never what a library guesses from the letters.

import type { Pdu } from 'smpp';
import { z } from 'zod';
import { gsm7Bytes } from '#publish/wording/texts/gsm7.ts';
import type { Channel, ChannelDeps, ChannelState, Outcome, Outgoing } from './channel.ts';
import { deadline } from './deadline.ts';
import { oneSegment } from './one-segment.ts';
import { outcome } from './outcome.ts';
import { secretName } from './outgoing-settings.ts';
import { phoneNumber } from './phone-number.ts';
import { type CameIn, createCameIn } from './smpp-came-in.ts';
import { readDelivery } from './smpp-delivery.ts';
import { type Inbox, SmppSession } from './smpp-session.ts';
import { smppOutcome, validityPeriod } from './smpp-status.ts';
import type { Submitted } from './smpp-submitted.ts';

const addressKind = z.int().min(0).max(6);

const nationalNumbers = z.strictObject({
  countryCode: z.string().regex(/^[1-9]\d{0,2}$/),
  digits: z.int().min(4).max(13),
  /** What is dialled before them within the country; it is left out abroad. */
  trunk: z
    .string()
    .regex(/^\d{0,2}$/)
    .default(''),
});

export const smppSettings = z.strictObject({
  kind: z.literal('smpp'),
  host: z.string().regex(/^[A-Za-z0-9.:-]{1,253}$/),
  port: z.int().min(1).max(65_535).default(2775),
  tls: z.boolean().default(true),
  systemId: z.string().min(1).max(15),
  password: secretName,
  systemType: z.string().max(12).default(''),
  serviceType: z.string().max(5).default(''),
  /** Who it comes from: a number or a name, with the type and plan that the gateway wants for it. */
  from: z.string().regex(/^[\x20-\x7e]{1,20}$/),
  fromType: addressKind.default(1),
  fromPlan: z.int().min(0).max(18).default(1),
  /**
   * What the gateway's default alphabet (data_coding 0) is. `ascii`: letters that ASCII lacks are written without their
   * accents.
   */
  alphabet: z.enum(['gsm7', 'ascii']).default('gsm7'),
  /** Of the country whose numbers this gateway gives without their code, and how many digits they have then. */
  national: nationalNumbers.nullable().default(null),
  /** Statuses by which this gateway says that the person wants no more texts. */
  optedOutStatuses: z.array(z.int().min(1)).default([]),
  connectMs: z.int().min(100).max(60_000).default(5000),
  /** From being handed in to the gateway's answer. */
  wholeMs: z.int().min(200).max(120_000).default(15_000),
  linkCheckMs: z.int().min(1000).max(600_000).default(30_000),
  mostMisses: z.int().min(1).max(10).default(2),
  window: z.int().min(1).max(1000).default(10),
  reconnectLeastMs: z.int().min(100).max(60_000).default(1000),
  reconnectMostMs: z.int().min(1000).max(600_000).default(60_000),
});
export type SmppSettings = z.output<typeof smppSettings>;

export function smpp(settings: SmppSettings, deps: ChannelDeps): Channel {
  const password = deps.secret(settings.password);
  if (password === null) return withoutPassword(settings.password, deps);
  const cameIn = createCameIn(deps.clock);
  const inbox: Inbox = {
    take: (pdu, link) => deliver(pdu, link, settings, cameIn, deps),
    onceAnswered: cameIn.onceAnswered,
  };
  const session = new SmppSession(settings, password, inbox, deps);
  return {
    async send(outgoing, signal) {
      const fields = fieldsOf(settings, outgoing, deps);
      if ('kind' in fields) return fields;
      const limit = deadline(deps.clock, settings.wholeMs, signal);
      const made = await session.submit(fields, limit.signal).finally(() => limit.done());
      return meaningOf(made, settings);
    },
    state: () => session.state(),
    close: () => session.close(),
  };
}

function fieldsOf(settings: SmppSettings, outgoing: Outgoing, { clock }: ChannelDeps) {
  const number = phoneNumber(outgoing.to);
  if (number === null)
    return outcome.failed('bad-address', 'way', 'not a number with + and the country code');
  const text = oneSegment(outgoing.text);
  if (typeof text !== 'string') return text;
  const bytes = settings.alphabet === 'gsm7' ? gsm7Bytes(text) : asciiBytes(text);
  if (bytes === null) return outcome.failed('render', 'message', 'not in the alphabet');
  return {
    service_type: settings.serviceType,
    source_addr_ton: settings.fromType,
    source_addr_npi: settings.fromPlan,
    source_addr: settings.from,
    dest_addr_ton: 1,
    dest_addr_npi: 1,
    destination_addr: number.slice(1),
    validity_period: validityPeriod(outgoing.validUntilMs - clock.nowMs()),
    registered_delivery: 1,
    data_coding: 0,
    short_message: Buffer.from(bytes),
  };
}

/** Where 0x00 is no @ and 0x7d no ñ: plain letters for all that ASCII lacks. */
function asciiBytes(text: string): Uint8Array {
  const plain = text.normalize('NFKD').replace(/\p{M}/gu, '').replaceAll('¿', '').replaceAll('¡', '');
  return Uint8Array.from([...plain], (char) => (/^[\x20-\x7e\n]$/.test(char) ? char.charCodeAt(0) : 0x3f));
}

function meaningOf(made: Submitted, { optedOutStatuses }: SmppSettings): Outcome {
  switch (made.kind) {
    case 'answered':
      return smppOutcome(made.status, made.messageId, optedOutStatuses);
    case 'not-sent':
      return made.reason === 'auth'
        ? outcome.failed('auth', 'channel', made.detail)
        : outcome.retry(made.reason, made.detail);
    case 'unanswered':
      return outcome.uncertain(made.reason, made.detail);
  }
}

/** Hands over what the gateway delivers; true once it is kept. */
async function deliver(
  pdu: Pdu,
  link: object,
  { national }: SmppSettings,
  cameIn: CameIn,
  deps: ChannelDeps,
): Promise<boolean> {
  const delivery = readDelivery(pdu, national);
  if (delivery.kind === 'receipt') await deps.onReceipt(delivery.receipt);
  if (delivery.kind === 'text') {
    const content = JSON.stringify([delivery.text, pdu['user_message_reference'] ?? null]);
    const id = cameIn.nameOf(content, link, `smpp-${deps.clock.nowMs()}-${pdu.sequence_number}`);
    await deps.onInbound({ id, ...delivery.text });
    cameIn.kept(content, link);
  }
  return true;
}

function withoutPassword(name: string, { clock }: ChannelDeps): Channel {
  const detail = `the environment variable ${name} is not set`;
  let state: ChannelState = { standing: 'broken', sinceMs: clock.nowMs(), detail };
  return {
    send: () => Promise.resolve(outcome.failed('auth', 'channel', detail)),
    state: () => state,
    close: async () => {
      state = { standing: 'closed', sinceMs: clock.nowMs(), detail: null };
    },
  };
}

// A delivery: one message to one person by one way, and what came of it.

/**
 * sent: the channel took it. failed: it will not, or the network said later that it did not arrive. uncertain: it may have been taken, and nobody can say. expired,
 * superseded: not sent, since it was of no more use, or something newer was told.
 */
export type DeliveryOutcome = 'sent' | 'failed' | 'uncertain' | 'expired' | 'superseded';

/** One of a kind by message, contact, step, way and repeat, so that whoever makes it again makes the same. */
export interface Delivery {
  readonly message: string;
  /** `organisation/id`. */
  readonly site: string;
  readonly contact: string;
  /** 0: told first. Later ones are asked where nobody answered before. */
  readonly step: number;
  /** Which of the contact's ways, from 0. */
  readonly way: number;
  /** 0: the first telling; then 1, 2 … until somebody answers. */
  readonly repeat: number;
  /** Name of the configured channel, and where to, as they were when it was made. */
  readonly channel: string;
  readonly to: string;
  /** False: for their knowledge; the text does not ask for an answer, and none of theirs counts. */
  readonly asked: boolean;
  /** Which of the message's transitions this person is told. */
  readonly parts: readonly number[];
  /** 0: a stop, sent before everything else; 1: a hold; 2: news. */
  readonly urgency: number;
  /** When it was to be sent first, whatever came between [epoch ms]. */
  readonly dueAtMs: number;
  /** The next try is no sooner than this [epoch ms]; null: there was none that failed. */
  readonly notBeforeMs: number | null;
  /** Not sent after this [epoch ms]. */
  readonly validUntilMs: number;
  /** When it was first handed to the channel, whatever came of it [epoch ms]; null: never. */
  readonly triedAtMs: number | null;
  /** Null while it is to be sent. */
  readonly outcome: DeliveryOutcome | null;
  readonly settledAtMs: number | null;
  /** Why not, or what the other side called it. */
  readonly detail: string | null;
}

/** True where the person has it, as far as anybody can say. */
export const mayHaveArrived = ({ outcome }: Pick<Delivery, 'outcome'>): boolean =>
  outcome === 'sent' || outcome === 'uncertain';

/** What makes a delivery the only one of its kind; the same over all tries. The contact stands last: it may have spaces. */
export const deliveryId = ({ message, step, way, repeat, contact }: Delivery): string =>
  `${message} ${step} ${way} ${repeat} ${contact}`;

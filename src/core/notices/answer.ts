// What somebody said to a message.

/** got-it: understood, and done. cannot: not possible; somebody else must see to it at once. */
export type Said = 'got-it' | 'cannot';

export interface Answer {
  /** Unique: of the text that came in, of the link, of the request; the same one again is the same answer. */
  readonly id: string;
  readonly message: string;
  /** `organisation/id`. */
  readonly site: string;
  /** Contact's id; of an answer over the API whoever asked. */
  readonly contact: string;
  readonly said: Said;
  readonly via: 'digit' | 'link' | 'api';
  /** When it was said [epoch ms]. */
  readonly atMs: number;
  readonly receivedAtMs: number;
}

// Times of sending that must fit each other. A lease that ends while its holder still sends lets two send at once; one
// that outlasts the time in which a message must be out keeps everybody else from sending after its holder died.

export interface SendTimes {
  /** One try at one channel ends within this, one way or the other [ms]. */
  readonly sendTimeoutMs: number;
  /** So long a claimed delivery belongs to who claimed it [ms]. */
  readonly leaseMs: number;
  /** Within this a message that is due must be out [ms]. */
  readonly sendWithinMs: number;
}

/** What does not fit, in words; null where all does. */
export function leaseFault({ sendTimeoutMs, leaseMs, sendWithinMs }: SendTimes): string | null {
  if (!(sendTimeoutMs > 0)) return 'a try at sending must end';
  if (!(leaseMs > sendTimeoutMs))
    return `a lease of ${leaseMs} ms ends while its holder may still send (${sendTimeoutMs} ms)`;
  if (!(leaseMs < sendWithinMs)) {
    return `a lease of ${leaseMs} ms keeps others from sending what must be out within ${sendWithinMs} ms`;
  }
  return null;
}

// The same request sent twice must act once: its idempotency key, and the reply that it got.

export interface Once {
  readonly organisation: string;
  readonly key: string;
  /** Digest of method, address and body. */
  readonly requestHash: string;
  readonly atMs: number;
}

export interface OnceOutcome {
  readonly status: number;
  /** As it was sent. */
  readonly body: string;
  readonly headers: Readonly<Record<string, string>>;
}

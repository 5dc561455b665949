// Everything that answers are made from, kept once by content: forecast documents as they came, lists of alerts,
// definitions of sites with their limits and orders.

export type DocumentKind = 'gridpoint' | 'alerts' | 'definition';

export interface NewDocument {
  /** SHA-256 of the bytes, 64 hexadecimal digits. */
  readonly hash: string;
  readonly kind: DocumentKind;
  readonly bytes: Uint8Array;
}

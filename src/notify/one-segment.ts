// A text as it goes out: in the alphabet of one segment, and within it. The last gate before any gateway.

import { gsm7Length, SEGMENT_SEPTETS, toGsm7 } from '#publish/wording/texts/gsm7.ts';
import type { Outcome } from './channel.ts';
import { outcome } from './outcome.ts';

export function oneSegment(text: string): string | Outcome {
  const plain = toGsm7(text);
  const length = gsm7Length(plain) ?? Number.POSITIVE_INFINITY;
  if (plain === '') return outcome.failed('render', 'message', 'nothing to say');
  if (length <= SEGMENT_SEPTETS) return plain;
  return outcome.failed('too-long', 'message', `${length} septets, one segment holds ${SEGMENT_SEPTETS}`);
}

// A message to the office of a site about the texts themselves.

import type { Message, OfficeMatter } from '#core/notices/message.ts';
import { DAY_MS } from '#core/units/time.ts';

/** `of` names the occasion: the same of the same kind is the same message. */
export function officeMessage(
  { site, verdict, of }: { readonly site: string; readonly verdict: Message['verdict']; readonly of: string },
  matter: OfficeMatter,
  nowMs: number,
  hash: (text: string) => string,
): Message {
  return {
    id: hash(JSON.stringify(['office', matter.what, of])),
    kind: 'office',
    site,
    atMs: nowMs,
    verdict,
    transitions: [],
    validUntilMs: nowMs + DAY_MS / 2,
    needsAnswer: false,
    matter,
  };
}

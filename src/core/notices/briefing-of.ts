// What wind a crew knows of once somebody of them has acknowledged a message that told it.

import type { Burn } from '#core/watch/burn.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import type { OpenMessage } from './acknowledge.ts';
import type { Answer } from './answer.ts';
import { answersOfPart } from './answers-of-part.ts';
import type { Role } from './contact.ts';
import { isRelief } from './notice.ts';
import { OF_WIND } from './of-wind.ts';

/**
 * Null where it told them no wind, or whoever answered is not at the pit: `role` is that of the contact who answered, null where
 * they are none. An office that has seen it has told nobody.
 */
export function briefingOf(
  { message, deliveries }: Pick<OpenMessage, 'message' | 'deliveries'>,
  answer: Answer,
  role: Role | null,
  burn: Burn,
): WindBriefing | null {
  if (answer.said !== 'got-it' || answer.message !== message.id || role !== 'crew') return null;
  const wasTold = (part: number): boolean =>
    answersOfPart({ message, deliveries, answers: [answer] }, part).length > 0;
  const told = message.transitions.find(
    (t, i) =>
      wasTold(i) && OF_WIND.has(t.condition.code) && !isRelief(t) && t.condition.figures.windFromDeg !== null,
  );
  const fromDeg = told?.condition.figures.windFromDeg ?? null;
  const observedAtMs = told?.condition.asOfMs ?? message.atMs;
  // What was told of a fire before is none of this one.
  if (fromDeg === null || observedAtMs < burn.openedAtMs) return null;
  return {
    id: answer.id,
    burn: burn.id,
    fromDeg,
    observedAtMs,
    by: answer.contact,
    atMs: answer.atMs,
    message: message.id,
  };
}

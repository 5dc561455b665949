// The deliveries with which a message begins: nobody was told of it, and nobody has answered.

import type { Delivery } from './delivery.ts';
import { type EscalationSettings, escalate } from './escalate.ts';
import type { Message } from './message.ts';
import type { Audience } from './who-is-told.ts';

export const firstDeliveries = (
  message: Message,
  audience: Audience,
  nowMs: number,
  settings: EscalationSettings,
): readonly Delivery[] => escalate({ message, deliveries: [], answers: [], audience, nowMs, settings }).due;

// Where turns wait to be taken: in this process, or in the database for any of many.

import type { Turn } from './turn.ts';

export interface TurnQueue {
  /** Hands over what is due. What waits, or is under way, is not handed over twice. */
  send(turns: readonly Turn[]): Promise<void>;
  /** Resolves when nothing that was sent here still waits or is under way here. */
  idle(): Promise<void>;
  /** Turns that wait, as far as this process knows. */
  waiting(): number;
  /** Turns under way here. */
  running(): number;
  /** Takes no more; what is under way is called off and has ended when this resolves. */
  stop(): Promise<void>;
}

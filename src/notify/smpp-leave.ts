// The end of a session: unbind, and a moment for its answer.

import type { Session } from 'smpp';
import type { ChannelClock } from './channel.ts';

const WITHIN_MS = 1000;

export function takeLeave(session: Session, clock: ChannelClock): Promise<void> {
  return new Promise((resolve) => {
    const stopTimer = clock.after(WITHIN_MS, resolve);
    const leave = () => {
      stopTimer();
      resolve();
    };
    session.once('close', leave);
    if (!session.unbind({}, leave)) leave();
  });
}

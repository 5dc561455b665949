// Whether a channel that holds no session works: what its last message tells.

import type { ChannelClock, ChannelState, Outcome } from './channel.ts';

export interface StandingOf {
  note(outcome: Outcome): void;
  state(): ChannelState;
  close(): void;
}

export function channelStanding(clock: Pick<ChannelClock, 'nowMs'>): StandingOf {
  let state: ChannelState = { standing: 'ready', sinceMs: clock.nowMs(), detail: null };
  const become = (standing: ChannelState['standing'], detail: string | null) => {
    if (state.standing === 'closed' || (state.standing === standing && state.detail === detail)) return;
    state = {
      standing,
      detail,
      sinceMs: state.standing === standing ? state.sinceMs : clock.nowMs(),
    };
  };
  return {
    note(made) {
      if (made.kind === 'sent') become('ready', null);
      if (made.kind === 'failed' && made.permanent === 'channel')
        become('broken', `${made.reason}: ${made.detail}`);
    },
    state: () => state,
    close: () => become('closed', null),
  };
}

// What holds for every channel, whatever its kind: nothing that is of no use any more goes out, nothing through a channel
// that is closed, no id that could not stand in a header; and whatever happens inside, an outcome comes back.

import type { Channel, ChannelDeps, Outcome, Outgoing } from './channel.ts';
import { outcome } from './outcome.ts';

export function safeChannel(channel: Channel, { clock }: Pick<ChannelDeps, 'clock'>): Channel {
  let isClosed = false;
  const refused = (outgoing: Outgoing, signal: AbortSignal): Outcome | null => {
    if (isClosed) return outcome.retry('closed', 'the channel is closed');
    if (signal.aborted) return outcome.retry('called-off', 'called off');
    if (!/^[A-Za-z0-9._-]{1,128}$/.test(outgoing.id))
      return outcome.failed('render', 'message', 'an id that cannot stand in a header');
    if (!(outgoing.validUntilMs > clock.nowMs()))
      return outcome.failed('expired', 'message', 'of no use any more');
    return null;
  };
  return {
    async send(outgoing, signal) {
      const refusal = refused(outgoing, signal);
      if (refusal !== null) return refusal;
      try {
        return await channel.send(outgoing, signal);
      } catch {
        // Nobody knows how far it came. The fault itself may carry what was sent: it is not told on.
        return outcome.uncertain('internal', 'a fault of the program');
      }
    },
    state: () => channel.state(),
    async close() {
      isClosed = true;
      await channel.close();
    },
  };
}

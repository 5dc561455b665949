// The channels of the configuration, each made when it is first needed.

import { lookup } from 'node:dns/promises';
import type { Config } from '#config/schema.ts';
import { createChannel } from '#notify/all.ts';
import type { Channel, ChannelDeps, InboundText, Receipt } from '#notify/channel.ts';
import { systemClock } from '#notify/system-clock.ts';

export interface ChannelShelf {
  get(name: string): Channel | null;
  names(): readonly string[];
  /** How much each channel takes at once. */
  lanes(): ReadonlyMap<string, number>;
  states(): readonly { readonly name: string; readonly standing: string; readonly detail: string | null }[];
  close(): Promise<void>;
}

export interface ChannelShelfOptions {
  readonly channels: Config['channels'];
  /** Value of an environment variable; null where it is not set. */
  secret(name: string): string | null;
  onInbound(channel: string, text: InboundText): Promise<void>;
  onReceipt(channel: string, receipt: Receipt): Promise<void>;
  readonly nowMs: () => number;
}

/** More than a gateway on a slow line has under way, and no flood for anybody. Ours: no source. */
const AT_ONCE = 64;

export function createChannelShelf(options: ChannelShelfOptions): ChannelShelf {
  const made = new Map<string, Channel>();
  const lanes = new Map(
    Object.entries(options.channels).map(([name, settings]) => [
      name,
      settings.kind === 'smpp' ? settings.window : AT_ONCE,
    ]),
  );
  const depsOf = (name: string): ChannelDeps => ({
    clock: { nowMs: options.nowMs, after: systemClock.after },
    secret: options.secret,
    resolve: async (hostname) => (await lookup(hostname, { all: true })).map(({ address }) => address),
    random: Math.random,
    trust: null,
    onReceipt: (receipt) => options.onReceipt(name, receipt),
    onInbound: (text) => options.onInbound(name, text),
  });
  return {
    get(name) {
      const settings = Object.hasOwn(options.channels, name) ? options.channels[name] : undefined;
      if (settings === undefined) return null;
      const channel = made.get(name) ?? createChannel(settings, depsOf(name));
      made.set(name, channel);
      return channel;
    },
    names: () => Object.keys(options.channels),
    lanes: () => lanes,
    states: () => [...made].map(([name, channel]) => ({ name, ...channel.state() })),
    async close() {
      await Promise.all([...made.values()].map((channel) => channel.close()));
    },
  };
}

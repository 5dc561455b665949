// Every kind of channel. ADD A CHANNEL: a file with its settings and its make, and a line in each list here.

import { z } from 'zod';
import type { ChannelName } from '#core/notices/contact.ts';
import type { Channel, ChannelDeps } from './channel.ts';
import { email, emailSettings } from './email.ts';
import { httpSms, httpSmsSettings } from './http-sms.ts';
import { safeChannel } from './safe-channel.ts';
import { smpp, smppSettings } from './smpp.ts';
import { webPush, webPushSettings } from './web-push.ts';
import { webhook, webhookSettings } from './webhook.ts';

/** A channel as the configuration writes it; `kind` says which. */
export const channelSettings = z.discriminatedUnion('kind', [
  httpSmsSettings,
  smppSettings,
  emailSettings,
  webPushSettings,
  webhookSettings,
]);
export type ChannelSettings = z.output<typeof channelSettings>;
export type ChannelKind = ChannelSettings['kind'];

/** What each kind delivers to: which addresses of a contact it can use, and whether it needs a text or the long form. */
export const CARRIES: Readonly<Record<ChannelKind, ChannelName>> = {
  'http-sms': 'sms',
  smpp: 'sms',
  email: 'email',
  'web-push': 'push',
  webhook: 'webhook',
};

export const createChannel = (settings: ChannelSettings, deps: ChannelDeps): Channel =>
  safeChannel(make(settings, deps), deps);

function make(settings: ChannelSettings, deps: ChannelDeps): Channel {
  switch (settings.kind) {
    case 'http-sms':
      return httpSms(settings, deps);
    case 'smpp':
      return smpp(settings, deps);
    case 'email':
      return email(settings, deps);
    case 'web-push':
      return webPush(settings, deps);
    case 'webhook':
      return webhook(settings, deps);
  }
}

// Whether a way to reach somebody can be right at all, said when it is entered and not when there is a fire.

import type { ChannelName } from '#core/notices/contact.ts';
import { carrierFault } from './carrier-domains.ts';
import { isMailAddress } from './mail-address.ts';
import { type OutgoingPolicy, outgoingUrl } from './outgoing-url.ts';
import { phoneNumber } from './phone-number.ts';
import { pushSubscription } from './push-subscription.ts';

/** Why `to` cannot be used over a channel that carries `carries`; null where it can. */
export function wayFault(carries: ChannelName, to: string, policy: OutgoingPolicy): string | null {
  switch (carries) {
    case 'sms':
      return phoneNumber(to) === null ? 'not a number with + and the country code' : null;
    case 'email':
      return isMailAddress(to) ? carrierFault(to) : 'not one plain mail address';
    case 'webhook':
      return urlFault(to, policy);
    case 'push': {
      const subscription = pushSubscription(to);
      return subscription === null ? 'not a push subscription' : urlFault(subscription.endpoint, policy);
    }
  }
}

function urlFault(text: string, policy: OutgoingPolicy): string | null {
  const url = outgoingUrl(text, policy);
  return typeof url === 'string' ? `the address ${url}` : null;
}

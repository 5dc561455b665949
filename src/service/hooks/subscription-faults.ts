// What of a subscription cannot be, beside its shape: where it goes, and which sites it names.

import type { SubscriptionBody } from '#core/events/subscription.ts';
import { type OutgoingPolicy, outgoingUrl } from '#notify/outgoing-url.ts';
import type { BodyFault } from '#publish/definition-desk.ts';

/** `sites`: ids that whoever writes it may see. One that they may not is as if it were not there. */
export function subscriptionFaults(
  { url, sites, area }: SubscriptionBody,
  policy: OutgoingPolicy,
  known: ReadonlySet<string>,
): BodyFault[] {
  const address = outgoingUrl(url, policy);
  return [
    ...(typeof address === 'string' ? [{ path: 'url', message: `the address ${address}` }] : []),
    ...(sites ?? []).flatMap((id, i) =>
      known.has(id) ? [] : [{ path: `sites[${i}]`, message: `no site "${id}"` }],
    ),
    ...(area && 'box' in area && area.box.south > area.box.north
      ? [{ path: 'area.box', message: 'its south lies north of its north' }]
      : []),
  ];
}

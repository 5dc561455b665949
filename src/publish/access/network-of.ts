// Addresses of one subscriber count as one: an IPv6 network of 64 bits (RFC 6177, 2) has more addresses than can be held.

import ipaddr from 'ipaddr.js';

const SUBSCRIBER_GROUPS = 4;

/** An IPv4 address as it is, also where it is written as an IPv6 one; of IPv6 the first 64 bits. */
export function networkOf(address: string): string {
  if (!address.includes(':')) return address;
  if (!ipaddr.IPv6.isValid(address)) return address;
  const read = ipaddr.IPv6.parse(address);
  if (read.isIPv4MappedAddress()) return read.toIPv4Address().toString();
  return read.parts
    .slice(0, SUBSCRIBER_GROUPS)
    .map((part) => part.toString(16))
    .join(':');
}

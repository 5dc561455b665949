// Whether an address that somebody gave may be called: by what is written, and by where it leads. Nobody may use this
// program to reach what only it can reach.

import ipaddr from 'ipaddr.js';

export interface OutgoingPolicy {
  /** Ranges on the premises that may be called, with plain HTTP too and on any port: `10.20.0.0/16`. */
  readonly allow: readonly string[];
  /** Ports that may be called elsewhere. */
  readonly ports: readonly number[];
}

export const PUBLIC_ONLY: OutgoingPolicy = { allow: [], ports: [443] };

const LONGEST_URL = 2048;
/** All of the public IPv6 addresses so far lie in here (RFC 4291, section 2.4, and the IANA registry). */
const GLOBAL_IPV6 = ipaddr.IPv6.parseCIDR('2000::/3');
/** No list opens these: they are no single machine. */
const NEVER = new Set(['unspecified', 'multicast', 'broadcast']);

/**
 * Reads an address that somebody gave. What a name leads to can only be judged when it is called (`addressFault`).
 * A string says why it is refused.
 */
export function outgoingUrl(text: string, policy: OutgoingPolicy): URL | string {
  if (text.length > LONGEST_URL) return `longer than ${LONGEST_URL} characters`;
  // The parser would drop these without a word.
  if (hasControlOrBlank(text)) return 'has blanks or control characters in it';
  if (!URL.canParse(text)) return 'is no web address';
  const url = new URL(text);
  if (url.protocol !== 'https:' && url.protocol !== 'http:') return 'must begin with https://';
  if (url.username !== '' || url.password !== '') return 'must not carry a user name or a password';
  if (url.hash !== '') return 'must not carry a fragment (#)';
  const fault = literalOf(url) === null ? namedFault(url, policy) : addressFault(literal(url), url, policy);
  return fault ?? url;
}

/** Without a list of own ranges nothing but https on the known ports can be right, wherever the name leads. */
const namedFault = (url: URL, policy: OutgoingPolicy): string | null =>
  policy.allow.length > 0 ? null : elsewhereFault(url, policy);

/** Why this address (a literal, or what a name led to) may not be called for that URL; null where it may. */
export function addressFault(address: string, url: URL, policy: OutgoingPolicy): string | null {
  if (address.includes('%') || !ipaddr.isValid(address)) return 'leads to no address that can be read';
  const parsed = ipaddr.parse(address);
  if (NEVER.has(parsed.range())) return 'leads to an address that is no single machine';
  if (policy.allow.some((range) => isWithin(parsed, range))) return null;
  return isPublic(parsed) ? elsewhereFault(url, policy) : 'leads to an address that is not public';
}

/** True for an address as it is written, never a name, of a single machine in one of the ranges. */
export function isAddressWithin(text: string, allow: readonly string[]): boolean {
  // Every other notation of IPv4 would be read as that too.
  const isPlain = ipaddr.IPv4.isValidFourPartDecimal(text) || ipaddr.IPv6.isValid(text);
  if (!isPlain || text.includes('%')) return false;
  const parsed = ipaddr.parse(text);
  return !NEVER.has(parsed.range()) && allow.some((range) => isWithin(parsed, range));
}

/** The address that the URL itself is written with; null where it has a name. */
export const literalOf = (url: URL): string | null => (ipaddr.isValid(literal(url)) ? literal(url) : null);

/** True for a range that may stand in the list: an address, or a network that is not half of the world. */
export function isAllowRange(text: string): boolean {
  if (!text.includes('/')) return ipaddr.isValid(text) && !text.includes('%');
  if (!ipaddr.isValidCIDR(text)) return false;
  const [network, length] = ipaddr.parseCIDR(text);
  return length >= (network.kind() === 'ipv4' ? 8 : 16);
}

function elsewhereFault(url: URL, policy: OutgoingPolicy): string | null {
  if (url.protocol !== 'https:') return 'must begin with https://';
  return policy.ports.includes(portOf(url)) ? null : `port ${portOf(url)} may not be called`;
}

function isPublic(address: ipaddr.IPv4 | ipaddr.IPv6): boolean {
  if (address.range() !== 'unicast') return false;
  return address.kind() === 'ipv4' || (address as ipaddr.IPv6).match(GLOBAL_IPV6);
}

function isWithin(address: ipaddr.IPv4 | ipaddr.IPv6, range: string): boolean {
  const whole = range.includes('/') ? range : `${range}/${ipaddr.parse(range).kind() === 'ipv4' ? 32 : 128}`;
  const [network, length] = ipaddr.parseCIDR(whole);
  return network.kind() === address.kind() && address.match(network, length);
}

/** URL writes IPv6 in brackets, and every other notation of IPv4 as four decimals. */
const literal = (url: URL): string => url.hostname.replace(/^\[|\]$/g, '');

export const portOf = (url: URL): number => (url.port === '' ? defaultPort(url.protocol) : Number(url.port));

const defaultPort = (protocol: string): number => (protocol === 'https:' ? 443 : 80);

const hasControlOrBlank = (text: string): boolean =>
  [...text].some((c) => (c.codePointAt(0) ?? 0) <= 0x20 || c === '\u007f');

// Where the service listens, and whom it believes.

import { isIP } from 'node:net';
import { z } from 'zod';

const perMinute = z.int().min(1).max(10_000_000);

/** Shortest network prefix that still names a network: a shorter one names a good part of the world. */
const SHORTEST_PREFIX: Readonly<Record<number, number>> = { 4: 8, 6: 16 };

/** An address or a network. A number of hops, `true` or a name would believe whoever connects. */
const proxyAddress = z
  .string('expected an address such as "10.0.0.2", or a network such as "10.0.0.0/24"')
  .superRefine((text, context) => {
    const [address = '', prefix, ...rest] = text.split('/');
    const family = isIP(address);
    const mapped = family === 6 && /^::ffff:/i.test(address);
    const bits = prefix === undefined ? 128 : Number(prefix);
    const wellFormed = rest.length === 0 && (prefix === undefined || /^\d{1,3}$/.test(prefix));
    const most = family === 4 ? 32 : 128;
    if (family === 0 || mapped || !wellFormed || (prefix !== undefined && bits > most)) {
      context.addIssue({
        code: 'custom',
        message: `expected an address or a network such as "10.0.0.0/24", found "${text}"`,
      });
      return;
    }
    const shortest = SHORTEST_PREFIX[family] ?? 0;
    if (bits < shortest) {
      context.addIssue({
        code: 'custom',
        message: `"${text}" is no network of proxies; expected at least /${shortest}`,
      });
    }
  });

export const listen = z.strictObject({
  /** A loopback address is open; any other asks for keys. */
  host: z.string().trim().min(1).default('127.0.0.1'),
  port: z.int().min(0).max(65_535).optional(),
  /** Where people reach the pages from elsewhere; links in mails need it. */
  publicUrl: z
    .url({ protocol: /^https?$/ })
    .transform((url) => url.replace(/\/+$/, ''))
    .optional(),
  /** Further names by which a service on this machine may be addressed. */
  names: z.array(z.string().trim().min(1)).default([]),
  trustProxy: z
    .array(proxyAddress, 'expected a list of addresses or networks; a proxy is trusted by its address alone')
    .default([]),
  /** From /readyz saying no until the port closes, for a balancer to notice; answers go on meanwhile. */
  noticeMs: z.int().min(0).max(120_000).default(0),
  rateLimit: z
    .strictObject({
      keyPerMin: perMinute.default(1200),
      addressPerMin: perMinute.default(120),
      loopbackPerMin: perMinute.default(600_000),
    })
    .prefault({}),
});

export type Listen = z.output<typeof listen>;

const LOOPBACK = /^(?:localhost|127(?:\.\d{1,3}){3}|::1)$/i;

/** True for addresses that only this machine reaches. A name that merely leads to one is not believed. */
export const isLoopback = (host: string): boolean => LOOPBACK.test(host);

/** Whether requests need a key: behind a proxy the world asks from this machine's own address. */
export const needsKeys = ({ host, trustProxy }: Pick<Listen, 'host' | 'trustProxy'>): boolean =>
  !isLoopback(host) || trustProxy.length > 0;

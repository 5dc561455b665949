import { describe, expect, it } from 'vitest';
import { listen, needsKeys } from '#config/listen.ts';

describe('where the service listens', () => {
  it.each<[object, boolean]>([
    [{}, false],
    [{ host: 'localhost' }, false],
    [{ host: '127.0.0.2' }, false],
    [{ host: '::1' }, false],
    [{ host: '0.0.0.0' }, true],
    [{ host: '::' }, true],
    [{ host: '192.168.1.20' }, true],
    [{ host: 'pits.example' }, true],
    [{ host: '127.0.0.1.example' }, true],
    [{ host: '::ffff:127.0.0.1' }, true],
    // Whoever reaches the proxy reaches the service.
    [{ trustProxy: ['127.0.0.1'] }, true],
  ])('%j asks for keys: %s', (written, asks) => {
    expect(needsKeys(listen.parse(written))).toBe(asks);
  });
});

describe('a trusted proxy', () => {
  it.each(['10.0.0.2', '10.0.0.0/24', '2001:db8::1', '2001:db8::/48', '127.0.0.1'])(
    'is named by address: %s',
    (proxy) => {
      expect(listen.parse({ trustProxy: [proxy] }).trustProxy).toEqual([proxy]);
    },
  );

  it.each([
    true,
    1,
    'loopback',
    'proxy.example',
    '0.0.0.0/0',
    '::/0',
    '10.0.0.0/33',
    '10.0.0.2/',
    '10.0.0.1/8/8',
    '',
    '*',
  ])('is not everybody, a number of hops or a name: %j', (proxy) => {
    expect(listen.safeParse({ trustProxy: [proxy] }).success).toBe(false);
    expect(listen.safeParse({ trustProxy: proxy }).success).toBe(false);
  });
});

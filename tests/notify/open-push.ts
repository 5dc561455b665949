// The browser's side of Web Push, written from the standards with node:crypto alone: opens what was sent (RFC 8291 over RFC
// 8188) and checks who sent it (RFC 8292).

import { createDecipheriv, createECDH, createPublicKey, type ECDH, hkdfSync, verify } from 'node:crypto';

export interface Browser {
  readonly ecdh: ECDH;
  readonly auth: Buffer;
  /** As the browser's script hands it to the server. */
  subscription(endpoint: string): string;
}

export function browser(auth: Buffer, privateKey?: Buffer): Browser {
  const ecdh = createECDH('prime256v1');
  if (privateKey) ecdh.setPrivateKey(privateKey);
  else ecdh.generateKeys();
  return {
    ecdh,
    auth,
    subscription: (endpoint) =>
      JSON.stringify({
        endpoint,
        expirationTime: null,
        keys: { p256dh: ecdh.getPublicKey('base64url'), auth: auth.toString('base64url') },
      }),
  };
}

const hkdf = (key: Buffer, salt: Buffer, info: Buffer, length: number): Buffer =>
  Buffer.from(hkdfSync('sha256', key, salt, info, length));

/** Header: salt (16), record size (4), length of the key (1), key; then one record. */
export function openPush(body: Buffer, { ecdh, auth }: Browser): string {
  const salt = body.subarray(0, 16);
  const keyLength = body[20] as number;
  const theirs = body.subarray(21, 21 + keyLength);
  const record = body.subarray(21 + keyLength);
  const info = Buffer.concat([Buffer.from('WebPush: info\0'), ecdh.getPublicKey(), theirs]);
  const ikm = hkdf(ecdh.computeSecret(theirs), auth, info, 32);
  const key = hkdf(ikm, salt, Buffer.from('Content-Encoding: aes128gcm\0'), 16);
  const nonce = hkdf(ikm, salt, Buffer.from('Content-Encoding: nonce\0'), 12);
  const decipher = createDecipheriv('aes-128-gcm', key, nonce);
  decipher.setAuthTag(record.subarray(-16));
  const padded = Buffer.concat([decipher.update(record.subarray(0, -16)), decipher.final()]);
  const end = padded.findLastIndex((byte) => byte !== 0);
  if (padded[end] !== 2) throw new Error('no delimiter of a last record');
  return padded.subarray(0, end).toString('utf8');
}

export interface Claims {
  readonly aud: string;
  readonly exp: number;
  readonly sub: string;
}

/** The claims of `vapid t=…, k=…`; throws where the signature is not that of the key. */
export function vapidClaims(authorization: string): { readonly claims: Claims; readonly key: string } {
  const match = /^vapid t=([\w-]+)\.([\w-]+)\.([\w-]+), ?k=([\w-]+)$/.exec(authorization);
  if (!match) throw new Error('not the form of RFC 8292');
  const [, head = '', claims = '', signature = '', key = ''] = match;
  if (JSON.parse(Buffer.from(head, 'base64url').toString()).alg !== 'ES256') throw new Error('not ES256');
  const point = Buffer.from(key, 'base64url');
  const publicKey = createPublicKey({
    format: 'jwk',
    key: {
      kty: 'EC',
      crv: 'P-256',
      x: point.subarray(1, 33).toString('base64url'),
      y: point.subarray(33).toString('base64url'),
    },
  });
  const isRight = verify(
    'sha256',
    Buffer.from(`${head}.${claims}`),
    { key: publicKey, dsaEncoding: 'ieee-p1363' },
    Buffer.from(signature, 'base64url'),
  );
  if (!isRight) throw new Error('not signed by that key');
  return { claims: JSON.parse(Buffer.from(claims, 'base64url').toString()) as Claims, key };
}

// Personal links: they name a message and a contact, and are signed with a secret that all processes share. A link can be
// read and answered by whoever has it, and by nobody who guesses.

import { createHmac, timingSafeEqual } from 'node:crypto';

export interface LinkTokens {
  make(message: string, contact: string): string;
  /** Null for what was not made here. */
  read(token: string): { readonly message: string; readonly contact: string } | null;
}

/** 128 bits. */
const MAC_BYTES = 16;

export function createLinkTokens(secret: string): LinkTokens {
  const macOf = (named: string): Buffer =>
    createHmac('sha256', secret).update(named).digest().subarray(0, MAC_BYTES);
  return {
    make(message, contact) {
      const named = Buffer.from(JSON.stringify([message, contact])).toString('base64url');
      return `${named}.${macOf(named).toString('base64url')}`;
    },
    read(token) {
      const [named = '', mac = '', ...rest] = token.split('.');
      const given = Buffer.from(mac, 'base64url');
      if (rest.length > 0 || given.length !== MAC_BYTES || !timingSafeEqual(given, macOf(named))) return null;
      const [message, contact] = JSON.parse(Buffer.from(named, 'base64url').toString('utf8')) as string[];
      return message !== undefined && contact !== undefined ? { message, contact } : null;
    },
  };
}

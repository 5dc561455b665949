// Whose certificates count: the system's, and our own authorities' where there are any.

import { getCACertificates } from 'node:tls';

export const trusted = (trust: string | null): { readonly ca?: string[] } =>
  trust === null ? {} : { ca: [...getCACertificates('default'), trust] };

// The routes that the OpenAPI document does not name, and who may ask each. No test in here.

import type { Scope } from '#store/api-key.ts';

/** Pages are for people, and the document does not describe itself. A personal link is signed: who has it may answer. */
export const NOT_IN_THE_DOCUMENT: Readonly<Record<string, Scope | 'open'>> = {
  'GET /': 'read',
  'GET /sites/:id': 'read',
  'GET /docs': 'read',
  'GET /openapi.json': 'read',
  'GET /a/:token': 'open',
  'POST /a/:token': 'open',
  'GET /sign-in': 'open',
  'POST /sign-in': 'open',
  'GET /sign-in/:key': 'open',
  'POST /sign-in/:key': 'open',
  'POST /sign-out': 'open',
  'GET /settings': 'read',
  'GET /settings/live.js': 'read',
  'POST /settings/limits/week': 'admin',
  'GET /settings/limits': 'admin',
  'GET /settings/limits/:id': 'read',
  'POST /settings/limits': 'admin',
  'POST /settings/limits/save': 'admin',
  'GET /settings/orders': 'admin',
  'GET /settings/orders/:id': 'read',
  'POST /settings/orders': 'admin',
  'POST /settings/orders/save': 'admin',
  'GET /settings/sites': 'admin',
  'GET /settings/sites/:id': 'read',
  'POST /settings/sites': 'admin',
  'POST /settings/sites/save': 'admin',
  'GET /settings/contacts': 'admin',
  'GET /settings/contacts/:id': 'notify',
  'POST /settings/contacts': 'admin',
  'POST /settings/contacts/save': 'admin',
  'POST /sites/:id/readings': 'observe',
};

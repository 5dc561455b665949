// Roles: names for what people of a burn usually may. A key holds the scopes; a role is only a way to write them.

import type { Scope } from '#store/api-key.ts';

export const ROLES = ['crew', 'office', 'dispatch', 'admin'] as const;
export type Role = (typeof ROLES)[number];

const SCOPES_OF: Readonly<Record<Role, readonly Scope[]>> = {
  crew: ['read', 'observe', 'burn'],
  office: ['read', 'observe', 'burn', 'notify'],
  dispatch: ['read', 'notify', 'order'],
  admin: ['admin'],
};

export const scopesOf = (role: Role): readonly Scope[] => SCOPES_OF[role];

/** The role that has these very scopes; null: none has. */
export function roleOf(scopes: Iterable<Scope>): Role | null {
  const own = new Set(scopes);
  const same = (role: Role): boolean =>
    SCOPES_OF[role].length === own.size && SCOPES_OF[role].every((scope) => own.has(scope));
  return ROLES.find(same) ?? null;
}

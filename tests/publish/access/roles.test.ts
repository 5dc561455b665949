import { describe, expect, it } from 'vitest';
import { ROLES, roleOf, scopesOf } from '#publish/access/roles.ts';
import { mayDo, thisMachine } from '#publish/viewer.ts';
import { SCOPES } from '#store/api-key.ts';

describe('roles', () => {
  it.each(ROLES)('%s is known again by its scopes, in whatever order', (role) => {
    expect(roleOf([...scopesOf(role)].reverse())).toBe(role);
  });

  it.each([[[]], [['read']], [['read', 'burn']], [SCOPES]] as const)('%j are those of none', (scopes) => {
    expect(roleOf(scopes)).toBeNull();
  });

  it('let a crew tap and read, and change no setting', () => {
    const crew = { ...thisMachine('own'), scopes: new Set(scopesOf('crew')) };
    expect(SCOPES.filter((scope) => mayDo(crew, scope))).toEqual(['read', 'observe', 'burn']);
    const admin = { ...crew, scopes: new Set(scopesOf('admin')) };
    expect(SCOPES.filter((scope) => mayDo(admin, scope))).toEqual([...SCOPES]);
  });
});

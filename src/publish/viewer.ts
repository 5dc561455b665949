// Who asks, and what they may see and do. Every route asks on behalf of a viewer.

import { SCOPES, type Scope } from '#store/api-key.ts';

export interface Viewer {
  readonly organisation: string;
  /** Ids of the sites that they may see; null: all of the organisation. */
  readonly sites: readonly string[] | null;
  readonly scopes: ReadonlySet<Scope>;
  /** Name of the key; what histories and logs tell. */
  readonly name: string;
  /** Prefix of the key, since several may have one name; left out where none was asked for. */
  readonly key?: string;
}

/** Whoever sits at this machine, where the service is bound to it alone. */
export const thisMachine = (organisation: string): Viewer => ({
  organisation,
  sites: null,
  scopes: new Set(SCOPES),
  name: 'this machine',
});

/** `admin` may all that the others may. */
export const mayDo = ({ scopes }: Viewer, scope: Scope): boolean => scopes.has(scope) || scopes.has('admin');

export const maySee = ({ sites }: Pick<Viewer, 'sites'>, id: string): boolean =>
  sites === null || sites.includes(id);

/** What is told of the service as a whole is for whoever runs it: the organisation of its configuration, all of its sites. */
export const seesWhole = (viewer: Viewer, organisation: string): boolean =>
  viewer.organisation === organisation && viewer.sites === null;

/** For histories: `office (k7m2p9qa)`. */
export const signatureOf = ({ name, key }: Viewer): string => (key === undefined ? name : `${name} (${key})`);

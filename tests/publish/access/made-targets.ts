// What requests are about, made through the API by whoever may do everything.

import { createLinkTokens } from '#service/watch/link-tokens.ts';
import type { Keyed } from '../../service/keyed.ts';
import { contactBody, hookBody, LIMITS, orderBody, siteBody, type Targets } from './fitting-request.ts';
import type { RegisteredRoute } from './registered-routes.ts';

export async function make(
  keyed: Keyed,
  admin: string,
  url: string,
  payload?: object,
): Promise<{ id: string }> {
  const headers = { authorization: `Bearer ${admin}` };
  const response = await keyed.service.app.inject({
    method: 'POST',
    url,
    headers,
    ...(payload ? { payload } : {}),
  });
  if (response.statusCode >= 300) throw new Error(`${url}: ${response.statusCode} ${response.body}`);
  return response.json();
}

/** A definition of the name `own`, where the route changes or takes out one. */
export async function makeOwn(
  keyed: Keyed,
  admin: string,
  { method, url }: Pick<RegisteredRoute, 'method' | 'url'>,
  own: string,
  targets: Targets,
): Promise<Targets> {
  const [, path = ''] = /^(\/v1\/[\w-]+)\/:id/.exec(url) ?? [];
  if (path === '/v1/limit-sets') await make(keyed, admin, path, { [own]: LIMITS });
  if (path === '/v1/orders') await make(keyed, admin, path, orderBody(own));
  if (path === '/v1/subscriptions')
    return { ...targets, subscription: (await make(keyed, admin, path, hookBody)).id };
  if (path === '/v1/contacts') await make(keyed, admin, path, contactBody(own));
  const isOfSite = path === '/v1/sites' || /:(message|silence|token)|silences/.test(url);
  if (isOfSite) await make(keyed, admin, '/v1/sites', siteBody(own, targets.limitSet));
  if (!/burns|:message|silence|:token/.test(url)) return targets;
  if (method === 'POST' && url === '/v1/sites/:id/burns') return targets;
  return { ...targets, ...(await makeWatched(keyed, admin, own, targets.contact)) };
}

/** A burn against the plan, what is told of it, a silence, and a drill with its link. */
export async function makeWatched(
  keyed: Keyed,
  admin: string,
  site: string,
  contact: string,
): Promise<Pick<Targets, 'burn' | 'message' | 'silence' | 'token' | 'cap'>> {
  const burn = await make(keyed, admin, `/v1/sites/${site}/burns`, { tap: 'lit', by: 'Crew lead' });
  const drill = await make(keyed, admin, `/v1/sites/${site}/drill`);
  const silence = await make(keyed, admin, '/v1/silences', {
    site,
    minutes: 10,
    reason: 'we stand beside it',
  });
  const tokens = createLinkTokens(await keyed.store.watch.secret('links', ''));
  await keyed.service.cap.publish();
  const [told] = await keyed.store.cap.living('own', { nowMs: 0, afterMs: 0, most: 1 }, [`own/${site}`]);
  if (told === undefined) throw new Error(`no message of ${site}`);
  const cap = told.identifier;
  return {
    cap,
    burn: burn.id,
    message: drill.id,
    silence: silence.id,
    token: tokens.make(drill.id, contact),
  };
}

// For each route a request that succeeds for whoever may make it.

import type { RegisteredRoute } from './registered-routes.ts';

export interface FittingRequest {
  readonly method: string;
  readonly url: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly payload?: object;
}

/** Which ones a request is about. */
export interface Targets {
  readonly site: string;
  readonly limitSet: string;
  readonly order: string;
  readonly contact: string;
  readonly burn: string;
  readonly message: string;
  readonly silence: string;
  readonly subscription: string;
  /** Of a message for dispatch centres. */
  readonly cap: string;
  readonly channel: string;
  /** Of a personal link. */
  readonly token: string;
  /** Of a calendar. */
  readonly feed?: string;
  /** That may read, and signs a browser in. */
  readonly key: string;
  /** Of a script. */
  readonly name?: string;
  /** Of a map with tiles: its library, and a tile. */
  readonly file?: string;
  readonly version?: string;
  readonly z?: string;
  readonly x?: string;
  readonly y?: string;
}

export const AT = [36.438, -120.231] as const;
export const SHIFT = { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '07:00', to: '17:00' };
export const LIMITS = [
  { element: 'windSpeed', atMost: { hold: '12 mph', stop: '15 mph' }, source: 'our rule' },
];

export const siteBody = (id: string, limits: string): Record<string, unknown> => ({
  id,
  name: `Site ${id}`,
  at: [...AT],
  timeZone: 'America/Los_Angeles',
  limits,
  shift: SHIFT,
});

export const orderBody = (name: string, sites: readonly string[] | 'all' = 'all') => ({
  name,
  issuer: 'county',
  sites,
  from: '2026-04-01',
});

/** Nobody listens there. */
export const hookBody = { url: 'http://127.0.0.1:9/pits', description: 'county dispatch' };

export const contactBody = (id: string, sites?: readonly string[]): Record<string, unknown> => ({
  id,
  name: `Contact ${id}`,
  role: 'crew',
  ways: [{ channel: 'text', to: '+15555550123' }],
  ...(sites ? { sites } : {}),
});

type Fitting = (own: string, targets: Targets) => Partial<FittingRequest>;

/** As a browser tells that a page of ours sent it (Fetch Metadata Request Headers, 2.3). */
export const OWN_PAGE = { 'sec-fetch-site': 'same-origin' };

const tapBody = (tap: string) => ({ tap, by: 'Crew lead' });

/** `own` is a name that only this request uses; it is there already where it is to be changed. */
const CHANGES: Readonly<Record<string, Fitting>> = {
  'POST /v1/plan': () => ({ payload: { site: { at: AT, shift: SHIFT }, limits: LIMITS } }),
  'POST /v1/sites': (own, { limitSet }) => ({ payload: siteBody(`${own}-new`, limitSet) }),
  'POST /v1/limit-sets': (own) => ({ payload: { [`${own}-new`]: LIMITS } }),
  'POST /v1/orders': (own) => ({ payload: orderBody(`${own} new`) }),
  'POST /v1/sites/:id/burns': (own) => ({ url: `/v1/sites/${own}/burns`, payload: tapBody('lit') }),
  'POST /v1/sites/:id/burns/:burn/taps': (own, { burn }) => ({
    url: `/v1/sites/${own}/burns/${burn}/taps`,
    payload: tapBody('charging'),
  }),
  'PUT /v1/sites/:id/burns/:burn/incident': (own, { burn }) => ({
    url: `/v1/sites/${own}/burns/${burn}/incident`,
    payload: { reference: 'CAD-1' },
  }),
  'POST /v1/sites/:id/observations': (own) => ({ url: `/v1/sites/${own}/observations`, payload: [{}] }),
  'POST /v1/sites/:id/drill': (own) => ({ url: `/v1/sites/${own}/drill` }),
  'POST /v1/messages/:message/answers': (_, { message }) => ({
    url: `/v1/messages/${message}/answers`,
    payload: { answer: 'got-it', by: 'crew-lead' },
  }),
  'POST /v1/silences': (own) => ({ payload: { site: own, minutes: 10, reason: 'we stand beside it' } }),
  'DELETE /v1/silences/:silence': (_, { silence }) => ({ url: `/v1/silences/${silence}` }),
  'POST /v1/subscriptions': () => ({ payload: hookBody }),
  'PUT /v1/subscriptions/:id': (_, { subscription }) =>
    changed(`/v1/subscriptions/${subscription}`, hookBody),
  'DELETE /v1/subscriptions/:id': (_, { subscription }) => changed(`/v1/subscriptions/${subscription}`),
  'POST /v1/subscriptions/:id/rotate': (_, { subscription }) =>
    changed(`/v1/subscriptions/${subscription}/rotate`, {}),
  'POST /v1/subscriptions/:id/replay': (_, { subscription }) => ({
    url: `/v1/subscriptions/${subscription}/replay`,
    payload: { after: '0' },
  }),
  'POST /v1/subscriptions/:id/test': (_, { subscription }) => ({
    url: `/v1/subscriptions/${subscription}/test`,
  }),
  'POST /v1/inbound/:channel': (own, { channel }) => ({
    url: `/v1/inbound/${channel}`,
    payload: { id: own, from: '+15550109999', text: 'hello' },
  }),
  'POST /sites/:id/readings': (_, { site }) => ({
    url: `/sites/${site}/readings`,
    payload: { station: 'meter', windSpeed: '8 mph', windDirection: 'SW' },
  }),
  'POST /sites/:id/now': (own, { site }) => ({
    url: `/sites/${site}/now`,
    payload: { form: `form-${own}`, do: 'lit' },
  }),
  'POST /v1/receipts/:channel': (own, { channel }) => ({
    url: `/v1/receipts/${channel}`,
    payload: { reference: own, state: 'delivered' },
  }),
  'POST /sign-in': (_, { key }) => ({ payload: { key }, headers: OWN_PAGE }),
  'POST /sign-in/:key': (_, { key }) => ({ url: `/sign-in/${key}`, headers: OWN_PAGE }),
  'POST /sign-out': () => ({ headers: OWN_PAGE }),
  'POST /settings/limits': (_, { limitSet }) => settingsForm(limitSet, LIMITS),
  'POST /settings/limits/week': (_, { limitSet }) => settingsForm(limitSet, LIMITS),
  'POST /settings/limits/save': (own) => settingsForm(`${own}-set`, LIMITS, 'new'),
  'POST /settings/orders': (own) => settingsForm('', orderBody(own), 'new'),
  'POST /settings/orders/save': (own) => settingsForm('', orderBody(own), 'new'),
  'POST /settings/sites': (own, { limitSet }) => settingsForm('', siteBody(`${own}-new`, limitSet), 'new'),
  'POST /settings/sites/save': (own, { limitSet }) =>
    settingsForm('', siteBody(`${own}-new`, limitSet), 'new'),
  'POST /settings/contacts': (own) => settingsForm('', contactBody(`${own}-new`), 'new'),
  'POST /settings/contacts/save': (own) => settingsForm('', contactBody(`${own}-new`), 'new'),
  'POST /a/:token': (_, { token }) => ({ url: `/a/${token}`, payload: { answer: 'got-it' } }),
  'POST /v1/contacts': (own) => ({ payload: contactBody(`${own}-new`) }),
  'PUT /v1/contacts/:id': (own) => changed(`/v1/contacts/${own}`, contactBody(own)),
  'DELETE /v1/contacts/:id': (own) => changed(`/v1/contacts/${own}`),
  'PUT /v1/sites/:id': (own, { limitSet }) => changed(`/v1/sites/${own}`, siteBody(own, limitSet)),
  'PUT /v1/limit-sets/:id': (own) => changed(`/v1/limit-sets/${own}`, LIMITS),
  'PUT /v1/orders/:id': (own) => changed(`/v1/orders/${own}`, orderBody(`${own}, again`)),
  'DELETE /v1/sites/:id': (own) => changed(`/v1/sites/${own}`),
  'DELETE /v1/limit-sets/:id': (own) => changed(`/v1/limit-sets/${own}`),
  'DELETE /v1/orders/:id': (own) => changed(`/v1/orders/${own}`),
};

const changed = (url: string, payload?: object): Partial<FittingRequest> => ({
  url,
  headers: { 'if-match': '"r1"' },
  ...(payload ? { payload } : {}),
});

/** What a question cannot do without. */
const ASKS: Readonly<Record<string, string>> = { '/v1/smoke-sources': `?at=${AT.join(',')}` };
/** As the forms of the settings carry what they are about; nothing is typed over it. */
const settingsForm = (id: string, content: object, revision = '1'): Partial<FittingRequest> => ({
  payload: { id, revision, content: JSON.stringify(content), do: 'edit' },
});

const READS = new Set(['GET', 'HEAD']);

/** Throws where nothing is written here of how to ask a route that changes something. */
export function fittingRequest(
  { method, url }: Pick<RegisteredRoute, 'method' | 'url'>,
  own: string,
  targets: Targets,
): FittingRequest {
  if (READS.has(method)) return { method, url: `${addressOf(url, targets)}${ASKS[url] ?? ''}` };
  const fitting = CHANGES[`${method} ${url}`];
  if (!fitting)
    throw new Error(`say in fitting-request.ts how ${method} ${url} is asked so that it succeeds`);
  return { method, url, ...fitting(own, targets) };
}

const NAMED_BY: Readonly<Record<string, keyof Targets>> = {
  '/settings/limits': 'limitSet',
  '/settings/contacts': 'contact',
  '/settings/orders': 'order',
  '/v1/limit-sets': 'limitSet',
  '/v1/contacts': 'contact',
  '/v1/orders': 'order',
  '/v1/subscriptions': 'subscription',
  '/v1/cap': 'cap',
};

export function addressOf(template: string, targets: Targets): string {
  const [path = ''] = /^\/(?:v1|settings)\/[\w-]+/.exec(template) ?? [];
  return template.replaceAll(/:(\w+)/g, (_, name: string) => {
    const target = name === 'id' ? (NAMED_BY[path] ?? 'site') : name;
    return targets[target as keyof Targets] ?? `no target for :${name}`;
  });
}

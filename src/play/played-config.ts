// The configuration that a simulated shift is played with: the demo's own, with one of its sites and an instrument at the
// pit in the place of the airfield.

import { type ReadConfig, readConfig } from '#config/load.ts';
import { withTextGateway } from '#demo/with-text-gateway.ts';

const MAST = {
  id: 'mast',
  kind: 'posted',
  by: 'instrument',
  distance: '0 m',
  period: '5 min',
  height: '10 m',
  averaging: '2 min',
  reference: 'true',
} as const;

export const PLAYED_STATION = MAST.id;

/** `written`: the demo's configuration as written. */
export function playedConfig(
  written: ReadConfig['written'],
  siteId: string,
  at: { readonly forecastUrl: string; readonly textsUrl: string },
): ReadConfig {
  const sites = (written['sites'] as { readonly id: string }[]).filter(({ id }) => id === siteId);
  const own = { ...written, sites: sites.map((site) => ({ ...site, stations: [MAST] })) };
  const read = readConfig(JSON.stringify(own), 'demo.yaml');
  const { config } = read;
  const nws = { ...config.sources.nws, baseUrl: at.forecastUrl };
  return { ...read, config: withTextGateway({ ...config, sources: { nws } }, at.textsUrl) };
}

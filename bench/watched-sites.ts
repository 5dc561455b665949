// Sites of one place, each with an instrument, a road beside it and a crew with a telephone of its own.

import { DEMO_CELLS } from '#demo/cells.ts';

export const crewNumber = (index: number): string => `+1555${String(1_000_000 + index)}`;
export const siteOfNumber = (number: string): number => Number(number.slice(5)) - 1_000_000;

export function watchedConfig(siteCount: number, baseUrl: string, gatewayUrl: string): string {
  const place = DEMO_CELLS[0]?.place ?? { latDeg: 0, lonDeg: 0 };
  const all = Array.from({ length: siteCount }, (_, i) => i);
  return JSON.stringify({
    contact: 'bench@example.org',
    sources: { nws: { baseUrl } },
    limitSets: {
      valley: [
        {
          element: 'windSpeed',
          atLeast: { hold: '3 mph' },
          atMost: { hold: '12 mph', stop: '15 mph' },
          source: 'ours',
        },
        { element: 'relativeHumidity', atLeast: { hold: '30 %', stop: '20 %' }, source: 'ours' },
      ],
    },
    sites: all.map((i) => ({
      id: `site-${i}`,
      name: `Site ${i}`,
      at: [place.latDeg, place.lonDeg],
      timeZone: 'America/Los_Angeles',
      limits: 'valley',
      shift: { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '07:00', to: '17:00' },
      protected: [{ name: 'county road', bearing: [80, 140], within: '0.5 mi' }],
      stations: [
        {
          id: 'mast',
          kind: 'posted',
          by: 'instrument',
          distance: '0 m',
          period: '5 min',
          height: '10 m',
          averaging: '2 min',
          reference: 'true',
        },
      ],
    })),
    channels: {
      text: {
        kind: 'http-sms',
        url: gatewayUrl,
        allow: ['127.0.0.0/8'],
        json: { id: '{id}', to: '{to}', text: '{text}' },
        reference: '/ref',
      },
    },
    contacts: all.map((i) => ({
      id: `crew-${i}`,
      name: `Crew ${i}`,
      role: 'crew',
      sites: [`site-${i}`],
      ways: [{ channel: 'text', to: crewNumber(i) }],
    })),
  });
}

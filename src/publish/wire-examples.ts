// Examples of answers that are no JSON, or are drawn on maps, for the OpenAPI document. Invented.

const at = '2026-04-14T10:05:00-07:00';

const EVENT = {
  id: '4711',
  type: 'burn-lit',
  at,
  site: 'north-block',
  siteName: 'North block, pit 1',
  place: { lat: 36.438, lon: -120.231 },
  externalRef: 'PIT-17',
  incidentRef: 'CAD-2026-004711',
  subject: 'burn-8c1f',
  validUntil: null,
  verdict: null,
  text: 'Lit: 10:05 am, tapped by Ana.',
  data: { burn: 'burn-8c1f', tap: 'lit', tappedAt: at, by: 'Ana' },
};

export const STREAM_EXAMPLE = [
  'retry: 3000',
  '',
  'id: 4700',
  'event: position',
  'data: {"position":"4700"}',
  '',
  'id: 4711',
  `data: ${JSON.stringify(EVENT)}`,
  '',
  '',
].join('\n');

export const CALENDAR_EXAMPLE = [
  'BEGIN:VCALENDAR',
  'VERSION:2.0',
  'PRODID:-//Pitward//Go windows//EN',
  'CALSCALE:GREGORIAN',
  'NAME:Go windows: North block\\, pit 1',
  'REFRESH-INTERVAL;VALUE=DURATION:PT15M',
  'BEGIN:VEVENT',
  'UID:b5b1f6a0-7a60-4c0c-9f0a-6b3f4c3f8f10',
  'DTSTAMP:20260413T110500Z',
  'LAST-MODIFIED:20260413T110500Z',
  'SEQUENCE:2',
  'STATUS:TENTATIVE',
  'DTSTART:20260414T160000Z',
  'DTEND:20260414T213000Z',
  'SUMMARY:Go by forecast: North block\\, pit 1',
  'END:VEVENT',
  'END:VCALENDAR',
  '',
].join('\r\n');

const collected = { asOf: '2026-04-14T17:05:00+00:00', demo: false, caution: 'Only the crew lights.' };

export const SITE_MAP_EXAMPLE = {
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      id: 'north-block',
      geometry: { type: 'Point', coordinates: [-120.231, 36.438] },
      properties: {
        ...{ site: 'north-block', name: 'North block, pit 1', timeZone: 'America/Los_Angeles' },
        ...{ externalRef: 'PIT-17', day: '2026-04-14', verdict: 'go', unknown: false, lightUp: at },
        lightUpBy: '2026-04-14T14:00:00-07:00',
        lastCharge: '2026-04-14T14:30:00-07:00',
        coveredBy: '2026-04-14T16:30:00-07:00',
        burn: null,
        forecast: {
          ...{ state: 'fresh', madeAt: at, ageMin: 0, checkedAt: at, nextDueAt: at, alertsReadAt: at },
          fault: null,
        },
      },
    },
  ],
  ...collected,
};

export const SMOKE_MAP_EXAMPLE = {
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      id: 'burn-8c1f',
      geometry: {
        type: 'Polygon',
        coordinates: [
          [
            [-120.231, 36.438],
            [-120.12587, 36.40719],
            [-120.11949, 36.437931],
            [-120.12578, 36.468738],
            [-120.231, 36.438],
          ],
        ],
      },
      properties: {
        ...{ site: 'north-block', name: 'North block, pit 1', burn: 'burn-8c1f', state: 'lit' },
        smoke: {
          ...{ kind: 'toward', toward: 90, halfWidth: 20, windSpeedMps: 3.6, source: 'observed' },
          ...{ station: 'mast', at, madeAt: null },
          text: 'toward E (90°), 20° on either side; read by mast at 10:05 am',
        },
        reachM: 10_000,
      },
    },
  ],
  ...collected,
};

export const NOTICE_MAP_EXAMPLE = {
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      id: 'north-block own/north-block smoke-turned-to-place County road 1',
      geometry: { type: 'Point', coordinates: [-120.231, 36.438] },
      properties: {
        ...{ id: 'own/north-block smoke-turned-to-place County road 1', site: 'north-block' },
        ...{ name: 'North block, pit 1', code: 'smoke-turned-to-place', subject: 'County road' },
        ...{ phase: 'raised', since: at, raisedAt: at, verdict: 'stop' },
        ...{ acknowledgedAt: null, acknowledgedBy: null },
        condition: {
          ...{ code: 'smoke-turned-to-place', subject: 'County road', truth: 'true', verdict: 'stop' },
          ...{ basis: 'observed', asOf: at, text: 'Smoke goes onto the county road.' },
        },
      },
    },
  ],
  ...collected,
};

export const BURNS_EXAMPLE =
  'site,burn,state,opened_at,lit_at,closed_at,since,lit_tapped_at,charging_tapped_at,burning_down_tapped_at,put_out_early_tapped_at,covered_tapped_at,tapped_by,notes\r\n' +
  `north-block,burn-8c1f,lit,${at},${at},,${at},${at},,,,,Ana,\r\n`;

export const WINDOWS_EXAMPLE =
  'site,verdict,from,to,standing,light_up_by,unknown,reason_code,reason,tightest_element,tightest_at,tightest_value,tightest_bound,tightest_room,tightest_unit,tightest_source\r\n' +
  'north-block,go,2026-04-14T09:00:00-07:00,2026-04-14T14:30:00-07:00,light,2026-04-14T14:00:00-07:00,false,within-limits,Within all limits.,windSpeed,2026-04-14T13:00:00-07:00,9,12,3,mph,our rule\r\n';

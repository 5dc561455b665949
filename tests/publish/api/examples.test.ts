// The examples of the OpenAPI document are what they stand for: other readers take them, and they have the very fields.

import { check } from '@placemarkio/check-geojson';
import { expect, it } from 'vitest';
import { BURN_COLUMNS, WINDOW_COLUMNS } from '#publish/list/site-csv.ts';
import { eventSchema } from '#publish/wire-events.ts';
import * as examples from '#publish/wire-examples.ts';
import { noticeMapSchema, siteMapSchema, smokeMapSchema } from '#publish/wire-geo.ts';
import { startRunning } from '../../service/running.ts';
import { messagesIn } from '../../service/watch/invented-listener.ts';
import { expectRules } from '../calendar/calendar-rules.ts';
import { readCsv } from '../list/read-csv.ts';

it('of maps are GeoJSON with all that the contract names', () => {
  for (const [schema, example] of [
    [siteMapSchema, examples.SITE_MAP_EXAMPLE],
    [smokeMapSchema, examples.SMOKE_MAP_EXAMPLE],
    [noticeMapSchema, examples.NOTICE_MAP_EXAMPLE],
  ] as const) {
    check(JSON.stringify(example));
    // What the contract does not name would be left out.
    expect(schema.parse(example)).toEqual(example);
  }
});

it('of the stream, the calendar and the tables are read as those are', () => {
  const [position, event] = messagesIn([examples.STREAM_EXAMPLE]);
  expect(position?.event).toBe('position');
  expect(eventSchema.parse(JSON.parse(event?.data ?? '')).id).toBe(event?.id);
  expect(expectRules(examples.CALENDAR_EXAMPLE)).toHaveLength(1);
  for (const [columns, text] of [
    [BURN_COLUMNS, examples.BURNS_EXAMPLE],
    [WINDOW_COLUMNS, examples.WINDOWS_EXAMPLE],
  ] as const) {
    const [head, row] = readCsv(text);
    expect([head, row?.length]).toEqual([[...columns], columns.length]);
  }
});

it('stand in the document beside the answers of these routes', async () => {
  const running = await startRunning('2026-03-03T01:10:00Z', undefined, false);
  try {
    const document = (await running.service.app.inject({ url: '/openapi.json' })).json();
    const text = (path: string) => JSON.stringify(document.paths[path].get.responses['200']);
    for (const path of ['/v1/events/stream', '/v1/windows.ics', '/v1/sites/{id}/burns.csv'])
      expect(text(path)).toContain('"example":"');
    for (const name of ['SiteMap', 'SmokeMap', 'NoticeMap'])
      expect(document.components.schemas[name].examples).toHaveLength(1);
  } finally {
    await running.close();
  }
});

// What a dispatch center calls a burn: carried by everything that is told of it.

import { expect, it } from 'vitest';
import { type EventAnswer, eventsSchema } from '#publish/wire-events.ts';
import { startBurning, TURNED } from './start-burning.ts';
import { SITE } from './watched-demo.ts';

const REFERENCE = 'CAD-2026-004711 <A>';

it('stands in the burn, on the board, in events and messages from then on, until it is taken back', async () => {
  const demo = await startBurning();
  const [burn] = (await demo.api('GET', `${SITE}/burns`)).body['burns'] as {
    id: string;
    incidentRef: null;
  }[];
  expect(burn?.incidentRef).toBeNull();
  const url = `${SITE}/burns/${burn?.id}/incident`;
  for (let i = 0; i < 2; i += 1) {
    const { status, body } = await demo.api('PUT', url, { reference: REFERENCE });
    expect([status, body['incidentRef']]).toEqual([200, REFERENCE]);
  }
  await demo.reads(TURNED);
  demo.pass(1);
  await demo.minute();
  await demo.api('POST', `${SITE}/burns/${burn?.id}/taps`, { tap: 'charging', by: 'Ana' });
  expect((await demo.api('GET', `${SITE}/now`)).body['burn']).toMatchObject({ incidentRef: REFERENCE });
  expect((await demo.service.app.inject({ url: '/board' })).body).toContain('CAD-2026-004711 &lt;A&gt;');
  const events = async (): Promise<EventAnswer[]> =>
    eventsSchema.parse((await demo.api('GET', '/v1/events?most=1000')).body).events;
  const told = await events();
  const refs = (type: string) => told.filter((e) => e.type === type).map((e) => e.incidentRef);
  expect(refs('burn-lit')).toEqual([null]);
  // Assigned twice, it is told once.
  expect(refs('burn-incident')).toEqual([REFERENCE]);
  expect(refs('burn-charging')).toEqual([REFERENCE]);
  const smoke = told.find(({ data }) => data['code'] === 'smoke-turned-to-place');
  expect(smoke?.incidentRef).toBe(REFERENCE);
  const { identifier } = (await demo.service.cap.desk
    .entries({ organisation: 'own', sites: null, scopes: new Set(), name: 'k' })
    .then((entries) => entries[0])) ?? { identifier: '' };
  const { body: message } = await demo.service.app.inject({ url: `/v1/cap/${identifier}` });
  expect(message).toContain(`<incidents>${burn?.id} &quot;CAD-2026-004711 &lt;A&gt;&quot;</incidents>`);

  expect((await demo.api('PUT', url, { reference: null })).body['incidentRef']).toBeNull();
  expect((await events()).at(-1)).toMatchObject({ type: 'burn-incident', incidentRef: null });
  expect((await events()).map((e) => e.text).filter((text) => text === '')).toEqual([]);
  for (const wrong of [{}, { reference: '' }, { reference: 'x'.repeat(121) }, { reference: 1 }])
    expect((await demo.api('PUT', url, wrong)).status).toBe(400);
  expect((await demo.api('PUT', `${SITE}/burns/none/incident`, { reference: 'a' })).status).toBe(404);
});

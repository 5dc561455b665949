// A text that a silence holds back waits by its own way: no other is opened for it, and it goes out once when the silence ends.

import { expect, it, onTestFinished } from 'vitest';
import { officeMessage } from '#jobs/watch/office-message.ts';
import { deliveryOf } from '../../builders/watch-records.ts';
import { startGateway } from './gateway.ts';
import { startBurning, TURNED } from './start-burning.ts';
import { OFFICE } from './watched-demo.ts';

const NORTH = 'own/north-block';

/** The office has two ways, and is to be told that nobody answers, when the site has been silenced for nine minutes. */
async function startHeldBack() {
  const second = await startGateway();
  onTestFinished(second.close);
  const other = `  other:\n    kind: http-sms\n    url: ${second.url}\n    allow: ["127.0.0.0/8"]\n    json: { id: "{id}", to: "{to}", text: "{text}" }\n`;
  const demo = await startBurning((yaml) =>
    yaml
      .replace('channels:\n', `$&${other}`)
      .replace(`{ channel: text, to: "${OFFICE}" }`, `$&, { channel: other, to: "${OFFICE}" }`),
  );
  await demo.reads(TURNED);
  await demo.minute();
  const asked = { site: 'north-block', minutes: 9, reason: 'on the radio' };
  const made = await demo.api('POST', '/v1/silences', asked);
  expect(made.status).toBe(201);
  const about = (await demo.store.watch.openThreads(9)).find(({ message }) => message.verdict === 'stop');
  if (about === undefined) throw new Error('the wind has turned');
  const { nowMs } = demo.clock;
  const told = officeMessage(
    { site: NORTH, verdict: 'stop', of: about.message.id },
    { what: 'not-answered', contact: null, about: about.message.id, detail: null },
    nowMs,
    (text) => text,
  );
  const to = { site: NORTH, contact: 'office', to: OFFICE, asked: false, parts: [] };
  const times = { dueAtMs: nowMs, validUntilMs: told.validUntilMs };
  await demo.store.watch.commit([
    { site: NORTH, replaces: null, messages: [told], deliveries: [deliveryOf(told.id, { ...to, ...times })] },
  ]);
  const heard = () => [...demo.heardBy(OFFICE), ...second.texts.map(({ text }) => text)];
  heard();
  return { demo, silence: String(made.body['id']), told: told.id, heard };
}

it('to a contact with two ways is sent once when the silence is over', async () => {
  const { demo, told, heard } = await startHeldBack();
  for (let i = 0; i < 8; i += 1) {
    await demo.tells();
    demo.pass(1);
  }
  expect(heard()).toEqual([]);
  for (let i = 0; i < 4; i += 1) {
    demo.pass(1);
    await demo.tells();
  }
  const { deliveries = [] } = (await demo.store.watch.thread(told)) ?? {};
  expect(deliveries.map((d) => [d.channel, d.outcome])).toEqual([['text', 'sent']]);
  expect(heard().filter((text) => text.includes('Nobody answers a warning'))).toHaveLength(1);
});

it('is due at once when somebody ends the silence', async () => {
  const { demo, silence, told, heard } = await startHeldBack();
  await demo.tells();
  demo.clock.nowMs += 1000;
  expect(heard()).toEqual([]);
  const { status } = await demo.api('DELETE', `/v1/silences/${silence}`, { by: 'Office' });
  expect(status).toBeLessThan(300);
  await demo.tells();
  const { deliveries = [] } = (await demo.store.watch.thread(told)) ?? {};
  expect(deliveries.map((d) => [d.channel, d.outcome])).toEqual([['text', 'sent']]);
  expect(heard().filter((text) => text.includes('Nobody answers a warning'))).toHaveLength(1);
});

it('goes out at once when the silence is ended, not when it would be looked at next', async () => {
  const { demo, silence, heard } = await startHeldBack();
  await demo.service.watching.send();
  expect(heard()).toEqual([]);
  expect((await demo.api('DELETE', `/v1/silences/${silence}`)).status).toBe(200);
  await demo.service.watching.send();
  expect(heard().filter((text) => text.includes('Nobody answers a warning'))).toHaveLength(1);
});

it('goes out at once also where its try had begun before the silence was ended', async () => {
  const { demo, silence, heard } = await startHeldBack();
  const { watch } = demo.store;
  const { settle } = watch;
  // Between the look that held it back and what is kept of it, the silence ends.
  watch.settle = async (settlements) => {
    watch.settle = settle;
    expect((await demo.api('DELETE', `/v1/silences/${silence}`)).status).toBe(200);
    return settle(settlements);
  };
  await demo.service.watching.send();
  await demo.service.watching.send();
  expect(heard().filter((text) => text.includes('Nobody answers a warning'))).toHaveLength(1);
});

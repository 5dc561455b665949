// What networks say later of texts: over a real SMPP gateway and by the route for gateways over HTTP. What did not arrive
// goes to the next at once.

import { describe, expect, it, onTestFinished } from 'vitest';
import { type Smsc, smsc } from '../../notify/smsc.ts';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

interface DeliveryAnswer {
  readonly contact: string;
  readonly outcome: string;
  readonly reason: string | null;
  readonly deliveredAt: string | null;
}

/** Deliveries of the newest message that somebody must answer. */
async function deliveriesOf(demo: WatchedDemo): Promise<readonly DeliveryAnswer[]> {
  const { body } = await demo.api('GET', `${SITE}/messages`);
  const messages = body['messages'] as { needsAnswer: boolean; deliveries: DeliveryAnswer[] }[];
  return messages.find(({ needsAnswer }) => needsAnswer)?.deliveries ?? [];
}

const told = (deliveries: readonly DeliveryAnswer[]) =>
  deliveries.map(({ contact, outcome }) => `${contact} ${outcome}`);

describe('a gateway over HTTP that says later', () => {
  const receipt = (demo: WatchedDemo, body: object) => demo.api('POST', '/v1/receipts/text', body);

  it('that a text did not arrive lets the next in line be told at once, not after the deadline', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.tells();
    expect(demo.heardBy(CREW)).toHaveLength(1);
    const reference = `g-${demo.gateway.texts.length}`;
    expect((await receipt(demo, { reference, state: 'queued' })).body).toEqual({ taken: 'pending' });
    expect(demo.heardBy(LEAD)).toEqual([]);
    const failed = await receipt(demo, {
      messageId: reference,
      status: 'UNDELIV',
      error: 'unknown subscriber',
    });
    expect(failed.body).toEqual({ taken: 'undelivered' });
    await demo.service.watching.send();
    expect(demo.heardBy(LEAD)).toEqual([expect.stringMatching(/: PUT IT OUT\. Smoke goes to county road/)]);
    const deliveries = await deliveriesOf(demo);
    expect(told(deliveries)).toEqual(['ana failed', 'ben sent']);
    expect(deliveries[0]?.reason).toBe('undelivered: unknown subscriber');
    const { body } = await demo.service.app.inject({ url: '/metrics' });
    expect(body).toContain('pitward_deliveries_total{channel="text",outcome="undelivered"} 1');
  });

  it('that it arrived is told with when, and a form does as well as JSON', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.tells();
    const reference = `g-${demo.gateway.texts.length}`;
    demo.pass(1);
    const sent = await demo.service.app.inject({
      method: 'POST',
      url: '/v1/receipts/text',
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({ id: reference, state: 'Delivered' }).toString(),
    });
    expect(sent.json()).toEqual({ taken: 'delivered' });
    const [delivery] = await deliveriesOf(demo);
    expect(delivery).toMatchObject({ outcome: 'sent', deliveredAt: '2026-04-14T10:06:00-07:00' });
    // What has arrived has arrived, whatever comes after.
    await receipt(demo, { reference, state: 'failed' });
    await demo.tells();
    expect(told(await deliveriesOf(demo))).toEqual(['ana sent']);
  });

  it('what nobody sent changes nothing, and what cannot be read is refused with the path', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.tells();
    expect((await receipt(demo, { reference: 'of somebody else', state: 'failed' })).status).toBe(200);
    expect(told(await deliveriesOf(demo))).toEqual(['ana sent']);
    const lacking = await receipt(demo, { state: 'failed' });
    expect([lacking.status, lacking.body['faults']]).toEqual([
      400,
      [{ path: 'reference', message: 'is lacking' }],
    ]);
    expect((await receipt(demo, { reference: 'x' })).body['faults']).toEqual([
      { path: 'state', message: 'is lacking' },
    ]);
    expect((await demo.api('POST', '/v1/receipts/pager', { reference: 'x', state: 'failed' })).status).toBe(
      404,
    );
  });
});

describe('a gateway over SMPP that says later', () => {
  /** A receipt in its customary form (SMPP 3.4, appendix B), and the state again as a field of its own. */
  const receiptFrom = (there: Smsc, count: number, stat: string, state: number) =>
    there.sessions.at(-1)?.deliver_sm({
      esm_class: 4,
      source_addr: '15550100001',
      destination_addr: '15550199',
      receipted_message_id: `m-${count}`,
      message_state: state,
      short_message: `id:m-${count} sub:001 dlvrd:000 submit date:2604141705 done date:2604141706 stat:${stat} err:027 text:`,
    });

  it('that a text did not arrive lets the next in line be told at once', async () => {
    const there = await smsc();
    onTestFinished(() => there.close());
    const demo = await startBurning(
      (yaml) =>
        yaml.replace(
          / {2}text:\n[\s\S]*?(?=contacts:)/,
          `  text: { kind: smpp, host: 127.0.0.1, port: ${there.port}, tls: false, systemId: pitward, password: SMPP_PASSWORD, from: "15550199" }\n`,
        ),
      { secret: (name) => (name === 'SMPP_PASSWORD' ? 'geheim' : null) },
    );
    const before = there.texts.length;
    await demo.reads(TURNED);
    await demo.tells();
    await there.until(() => there.texts.length > before);
    const numbers = () => there.texts.slice(before).map((pdu) => `+${String(pdu['destination_addr'])}`);
    expect(numbers()).toEqual([CREW]);
    receiptFrom(there, before + 1, 'UNDELIV', 5);
    // The next of the crew, and the office, which is told whom it did not reach.
    await there.until(() => there.texts.length > before + 2);
    expect(numbers().toSorted()).toEqual([CREW, LEAD, OFFICE]);
    receiptFrom(there, before + 1 + numbers().indexOf(LEAD), 'DELIVRD', 2);
    await expect
      .poll(async () => (await deliveriesOf(demo))[1]?.deliveredAt ?? null, { timeout: 5000 })
      .not.toBeNull();
    expect(await deliveriesOf(demo)).toMatchObject([
      { contact: 'ana', outcome: 'failed', reason: 'undelivered: 027', deliveredAt: null },
      { contact: 'ben', outcome: 'sent', deliveredAt: expect.any(String) },
    ]);
  });
});

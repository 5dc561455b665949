// Receipts and texts that come in: SMPP 3.4, sections 4.6, 5.2.12, 5.2.28 and appendix B; parts of longer texts: 3GPP TS
// 23.040, section 9.2.3.24. Delivered by the package's own server over a real connection.

import type { Pdu } from 'smpp';
import { afterEach, describe, expect, it } from 'vitest';
import type { ChannelDeps } from '#notify/channel.ts';
import { smpp, smppSettings } from '#notify/smpp.ts';
import { testDeps } from './deps.ts';
import { smsc } from './smsc.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

async function delivering(onInbound?: ChannelDeps['onInbound'], more: object = {}) {
  const there = await smsc();
  const deps = testDeps({ secrets: { SMPP_PASSWORD: 'geheim' }, ...(onInbound ? { onInbound } : {}) });
  const settings = smppSettings.parse({
    kind: 'smpp',
    host: '127.0.0.1',
    port: there.port,
    tls: false,
    systemId: 'pitward',
    password: 'SMPP_PASSWORD',
    from: '15550199',
    ...more,
  });
  const channel = smpp(settings, deps);
  open.push(channel, there);
  while (channel.state().standing !== 'ready') await new Promise<void>((resolve) => setImmediate(resolve));
  const deliver = (fields: Readonly<Record<string, unknown>>): Promise<Pdu> =>
    new Promise((resolve) => {
      there.sessions.at(-1)?.deliver_sm(
        {
          source_addr_ton: 1,
          source_addr_npi: 1,
          source_addr: '15550100',
          destination_addr: '15550199',
          ...fields,
        },
        resolve,
      );
    });
  return { there, deps, deliver };
}

const RECEIPT = { esm_class: 0x04 };
const told = (stat: string, err = '000') =>
  `id:m-1 sub:001 dlvrd:001 submit date:2603021342 done date:2603021343 stat:${stat} err:${err} text:Pit 7: PUT IT OUT`;

describe('a receipt', () => {
  it.each([
    ['DELIVRD', 'delivered'],
    ['EXPIRED', 'expired'],
    ['UNDELIV', 'failed'],
    ['REJECTD', 'failed'],
    ['DELETED', 'failed'],
    ['ACCEPTD', 'pending'],
    ['ENROUTE', 'pending'],
  ])('%s is told as %s, with its code', async (stat, state) => {
    const { deps, deliver } = await delivering();
    expect(await deliver({ ...RECEIPT, short_message: told(stat, '042') })).toMatchObject({
      command_status: 0,
    });
    expect(deps.receipts).toEqual([{ reference: 'm-1', state, code: '042' }]);
    expect(deps.inbound).toEqual([]);
  });

  it('with fields of its own goes by them', async () => {
    const { deps, deliver } = await delivering();
    await deliver({ ...RECEIPT, receipted_message_id: 'm-77', message_state: 5, short_message: '' });
    expect(deps.receipts).toEqual([{ reference: 'm-77', state: 'failed', code: null }]);
  });

  it('that tells of nothing is acknowledged and dropped', async () => {
    const { deps, deliver } = await delivering();
    for (const short_message of ['', 'stat:DELIVRD', 'id:m-1', told('UNKNOWN'), '1'])
      expect(await deliver({ ...RECEIPT, short_message })).toMatchObject({ command_status: 0 });
    expect(deps.receipts).toEqual([]);
    expect(deps.inbound).toEqual([]);
  });
});

describe('a text that comes in', () => {
  it('is handed over with who sent it, and acknowledged', async () => {
    const { deps, deliver } = await delivering();
    expect(await deliver({ data_coding: 0, short_message: Buffer.from('1') })).toMatchObject({
      command_status: 0,
    });
    expect(await deliver({ short_message: { message: '2 la máquina 🔧' }, data_coding: 8 })).toMatchObject({
      command_status: 0,
    });
    expect(deps.inbound).toMatchObject([
      { from: '+15550100', to: '15550199', text: '1', continues: false },
      { from: '+15550100', text: '2 la máquina 🔧', continues: false },
    ]);
    expect(new Set(deps.inbound.map((t) => t.id)).size).toBe(2);
  });

  it('in the long field is read too', async () => {
    const { deps, deliver } = await delivering();
    await deliver({ data_coding: 0, short_message: '', message_payload: { message: '1 done' } });
    expect(deps.inbound).toMatchObject([{ text: '1 done' }]);
  });

  it('in parts says which of them cannot be an answer', async () => {
    const { deps, deliver } = await delivering();
    const part = (n: number, message: string) =>
      deliver({ data_coding: 0, short_message: { udh: Buffer.from([5, 0, 3, 0x2a, 2, n]), message } });
    await part(1, 'the wind is turning and we need ');
    await part(2, '1 more truck');
    expect(deps.inbound).toMatchObject([{ continues: false }, { text: '1 more truck', continues: true }]);
  });

  it('that is binary is no text', async () => {
    const { deps, deliver } = await delivering();
    expect(await deliver({ data_coding: 4, short_message: Buffer.from([0x31, 0, 1]) })).toMatchObject({
      command_status: 0,
    });
    expect(deps.inbound).toEqual([]);
  });

  it('that could not be kept is refused for now, so that the gateway brings it again', async () => {
    const { deliver } = await delivering(() => Promise.reject(new Error('the store is away')));
    expect(await deliver({ data_coding: 0, short_message: Buffer.from('1') })).toMatchObject({
      command_status: 0x64,
    });
  });
});

// A text has no name in SMPP 3.4, section 4.6: what is brought again has another sequence number.
describe('a text that a gateway brings again', () => {
  const ONE = { data_coding: 0, short_message: Buffer.from('1') };
  const names = ({ inbound }: { inbound: readonly { id: string }[] }) => inbound.map(({ id }) => id);

  async function afterCut({ there, deps }: Awaited<ReturnType<typeof delivering>>) {
    const count = there.sessions.length;
    there.sessions.at(-1)?.destroy();
    await deps.clock.untilSet(750);
    deps.clock.advance(750);
    await there.until(() => there.sessions.length === count + 1);
    await deps.clock.untilSet(30_000);
  }

  it('since its acknowledgement was lost with the link is the same text', async () => {
    const all = await delivering();
    await all.deliver(ONE);
    await afterCut(all);
    await all.deliver(ONE);
    const [first, again] = names(all.deps);
    expect(again).toBe(first);
    // What the same person writes from then on is new.
    await all.deliver(ONE);
    expect(names(all.deps)[2]).not.toBe(first);
  });

  it('since it was refused is the same text, and so is one that comes while the first is being kept', async () => {
    const seen: string[] = [];
    const both = Promise.withResolvers<void>();
    const { deliver } = await delivering(async ({ id }) => {
      seen.push(id);
      if (seen.length === 1) throw new Error('the store is away');
      if (seen.length === 3) both.resolve();
      await both.promise;
    });
    expect(await deliver(ONE)).toMatchObject({ command_status: 0x64 });
    await Promise.all([deliver(ONE), deliver(ONE)]);
    expect(new Set(seen).size).toBe(1);
  });

  it('is none where the link lived on, or was checked before it was cut, or where it is another text', async () => {
    const all = await delivering();
    await all.deliver(ONE);
    all.deps.clock.advance(1);
    await all.deliver(ONE);
    all.deps.clock.advance(30_000);
    await all.there.until(() => all.there.checks.length === 1);
    // Whatever the gateway says after its answer to the check is read after it.
    await new Promise<Pdu>((resolve) => all.there.sessions[0]?.enquire_link({}, resolve));
    await afterCut(all);
    await all.deliver(ONE);
    await all.deliver({ ...ONE, short_message: Buffer.from('2') });
    expect(new Set(names(all.deps)).size).toBe(4);
  });
});

describe('what else a gateway says', () => {
  it('a check is answered, an unknown command is refused, and a farewell is believed', async () => {
    const { there, deps } = await delivering();
    const session = there.sessions[0];
    const checked = await new Promise<Pdu>((resolve) => session?.enquire_link({}, resolve));
    expect(checked).toMatchObject({ command: 'enquire_link_resp', command_status: 0 });
    const left = await new Promise<Pdu>((resolve) => session?.unbind({}, resolve));
    expect(left).toMatchObject({ command: 'unbind_resp' });
    await deps.clock.untilSet(750);
    deps.clock.advance(750);
    await there.until(() => there.sessions.length === 2);
  });

  it('rubbish ends the link, and it is made anew', async () => {
    const { there, deps } = await delivering();
    there.sessions[0]?.socket.write(Buffer.from('ffffffffffffffffffffffffffffffff', 'hex'));
    await deps.clock.untilSet(750);
    deps.clock.advance(750);
    await there.until(() => there.sessions.length === 2);
  });
});

// Types of number: SMPP 3.4, section 5.2.5; a trunk prefix is left out of an international number: ITU-T E.164 (from memory).
describe('a number that the gateway gives without its country', () => {
  const US = { countryCode: '1', digits: 10 };
  const DE = { countryCode: '49', digits: 10, trunk: '0' };

  it.each([
    [US, 2, '5550100123', '+15550100123'],
    [US, 0, '5550100123', '+15550100123'],
    [US, 2, '15550100123', '+15550100123'],
    [US, 1, '15550100123', '+15550100123'],
    [US, 1, '5550100123', '+5550100123'],
    [US, 0, '15550100123', '15550100123'],
    [US, 2, '55501', '55501'],
    [US, 0, '0049301234567', '0049301234567'],
    [US, 5, '5550100123', '5550100123'],
    [DE, 2, '03012345678', '+493012345678'],
    [DE, 0, '03012345678', '+493012345678'],
    [DE, 2, '3012345678', '+493012345678'],
    [null, 2, '5550100123', '5550100123'],
  ])('by %j, type %d: %s is %s', async (national, type, given, from) => {
    const { deps, deliver } = await delivering(undefined, { national });
    await deliver({ source_addr_ton: type, source_addr: given, short_message: '1' });
    expect(deps.inbound.map((text) => text.from)).toEqual([from]);
  });
});

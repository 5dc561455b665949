// Against the package's own server on this machine. Statuses and fields: SMPP 3.4, sections 4.4, 5.1.3, 5.2 and 7.1.1.
// Published reports repeated here: node-smpp#57 (the link dies and nobody is told), #248 (bind again after reconnect), #251.

import { afterEach, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import type { ChannelDeps } from '#notify/channel.ts';
import { smpp, smppSettings } from '#notify/smpp.ts';
import { never, outgoingOf, testDeps } from './deps.ts';
import { type Smsc, smsc } from './smsc.ts';

const open: { close(): unknown }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

type Written = Partial<z.input<typeof smppSettings>>;

async function bound(there: Smsc, written: Written = {}, more: Partial<ChannelDeps> = {}) {
  const deps = testDeps({ secrets: { SMPP_PASSWORD: 'geheim' }, ...more });
  const settings = smppSettings.parse({
    kind: 'smpp',
    host: '127.0.0.1',
    port: there.port,
    tls: false,
    systemId: 'pitward',
    password: 'SMPP_PASSWORD',
    from: '15550199',
    ...written,
  });
  const channel = smpp(settings, deps);
  // The channel goes first: one that is closed does not come back.
  open.push(channel, there);
  const ready = async () => {
    while (channel.state().standing !== 'ready') await new Promise<void>((resolve) => setImmediate(resolve));
  };
  return { deps, channel, settings, ready, out: outgoingOf(deps.clock) };
}

describe('a text over SMPP', () => {
  it('goes out in septets of the default alphabet, never in what a library would guess', async () => {
    const there = await smsc();
    const { channel, out } = await bound(there);
    const text = 'Fosa 7: 180° cambió, señal [1] €5 @ el álamo';
    expect(await channel.send({ ...out, text }, never())).toEqual({ kind: 'sent', reference: 'm-1' });
    const [pdu] = there.texts;
    expect(pdu).toMatchObject({
      data_coding: 0,
      esm_class: 0,
      registered_delivery: 1,
      dest_addr_ton: 1,
      dest_addr_npi: 1,
      destination_addr: '15550100',
      source_addr: '15550199',
    });
    // The server decodes coding 0 by its own table of the GSM alphabet.
    expect(pdu?.['short_message']).toMatchObject({
      message: 'Fosa 7: 180 deg cambio, señal [1] €5 @ el alamo',
    });
  });

  it('carries how long it is of use', async () => {
    const there = await smsc();
    const { deps, channel, out } = await bound(there);
    await channel.send({ ...out, validUntilMs: deps.clock.nowMs() + 26 * 3_600_000 + 61_000 }, never());
    const inMs = Number(there.texts[0]?.['validity_period']) - Date.now();
    expect(inMs).toBeGreaterThan(26 * 3_600_000);
    expect(inMs).toBeLessThan(26 * 3_600_000 + 61_500);
  });

  it('is written in plain ASCII for a gateway whose default alphabet that is', async () => {
    const there = await smsc();
    const { channel, out } = await bound(there, { alphabet: 'ascii' });
    await channel.send({ ...out, text: 'Señal @ [1] ¿qué?' }, never());
    // As read by the GSM table: in it 0x40 is ¡ and 0x5b is Ä, so that the bytes are ASCII's.
    expect(there.texts[0]?.['short_message']).toMatchObject({ message: 'Senal ¡ Ä1Ñ que?' });
  });

  it.each([
    [0x58, { kind: 'retry', reason: 'rate-limited' }],
    [0x14, { kind: 'retry', reason: 'rate-limited' }],
    [0x08, { kind: 'retry', reason: 'unavailable' }],
    [0x0b, { kind: 'failed', reason: 'bad-address', permanent: 'way' }],
    [0x0a, { kind: 'failed', reason: 'refused', permanent: 'channel' }],
    [0x45, { kind: 'failed', reason: 'refused', permanent: 'message' }],
    [0xff, { kind: 'failed', reason: 'refused', permanent: 'message' }],
    [0x0401, { kind: 'failed', reason: 'opted-out', permanent: 'way' }],
  ])('that is answered with status %i is %j', async (status, means) => {
    const there = await smsc();
    there.answerText = () => status;
    const { channel, out } = await bound(there, { optedOutStatuses: [0x0401] });
    expect(await channel.send(out, never())).toMatchObject(means);
  });

  it('that is not answered may have been taken', async () => {
    const there = await smsc();
    there.answerText = () => null;
    const { deps, channel, out } = await bound(there);
    const made = channel.send(out, never());
    await there.until(() => there.texts.length === 1);
    deps.clock.advance(15_000);
    expect(await made).toEqual({ kind: 'uncertain', reason: 'timeout', detail: 'no answer in time' });
  });

  it('waits for its turn: no more are under way than the window allows', async () => {
    const there = await smsc();
    there.answerText = () => null;
    const { channel, ready, out } = await bound(there, { window: 3 });
    await ready();
    const made = Array.from({ length: 8 }, (_, i) => channel.send({ ...out, id: `t${i}` }, never()));
    await there.until(() => there.texts.length === 3);
    there.answerText = () => 0;
    const session = there.sessions[0];
    for (const pdu of [...there.texts]) session?.send(pdu.response({ message_id: 'late' }));
    expect((await Promise.all(made)).map((m) => m.kind)).toEqual(Array(8).fill('sent'));
    expect(there.texts.length).toBe(8);
  });

  it('can go over TLS, and goes nowhere where the certificate is nobody’s', async () => {
    const there = await smsc({ tls: true });
    const { channel, out } = await bound(there, { tls: true });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'sent' });
    const other = await smsc({ tls: true });
    const { deps, channel: second } = await bound(other, { tls: true }, { trust: null });
    const made = second.send(out, never());
    await deps.clock.untilSet(750);
    deps.clock.advance(15_000);
    expect(await made).toMatchObject({ kind: 'retry', reason: 'unreachable' });
    expect(other.texts).toEqual([]);
  });
});

describe('a link', () => {
  it('that the gateway cuts is made anew, with a new bind, and what was under way is uncertain', async () => {
    const there = await smsc();
    there.answerText = () => null;
    const { deps, channel, ready, out } = await bound(there);
    const first = channel.send(out, never());
    await there.until(() => there.texts.length === 1);
    there.sessions[0]?.destroy();
    expect(await first).toMatchObject({ kind: 'uncertain', reason: 'unreachable' });
    expect(channel.state()).toMatchObject({ standing: 'connecting', detail: 'the connection was closed' });
    const second = channel.send(out, never());
    there.answerText = () => 0;
    deps.clock.advance(1000);
    await ready();
    expect(await second).toMatchObject({ kind: 'sent' });
    expect(there.sessions.length).toBe(2);
  });

  it('that is silent is checked, given up after two misses, and made anew', async () => {
    const there = await smsc();
    const { deps, channel, ready } = await bound(there);
    await ready();
    there.answersChecks = false;
    deps.clock.advance(30_000);
    await there.until(() => there.checks.length === 1);
    deps.clock.advance(30_000);
    await there.until(() => there.checks.length === 2);
    expect(channel.state().standing).toBe('ready');
    deps.clock.advance(30_000);
    expect(channel.state()).toMatchObject({ standing: 'connecting', detail: '2 unanswered in a row' });
    there.answersChecks = true;
    deps.clock.advance(1000);
    await ready();
    expect(there.sessions.length).toBe(2);
  });

  it('that answers its checks stays', async () => {
    const there = await smsc();
    const { deps, channel, ready } = await bound(there);
    await ready();
    for (let i = 1; i <= 5; i += 1) {
      deps.clock.advance(30_000);
      await there.until(() => there.checks.length === i);
      await settle();
    }
    expect(channel.state().standing).toBe('ready');
    expect(there.sessions.length).toBe(1);
  });

  it('that cannot be made is tried again, later each time, and never all at once', async () => {
    const there = await smsc();
    await there.close();
    const { deps, channel, out } = await bound(there);
    const made = channel.send(out, never());
    // Least 1 s, doubled each time; the middle of half to all.
    for (const waitMs of [750, 1500, 3000, 6000]) {
      await deps.clock.untilSet(waitMs);
      deps.clock.advance(waitMs);
    }
    deps.clock.advance(15_000);
    expect(await made).toMatchObject({ kind: 'retry', reason: 'unreachable', detail: 'no link in time' });
  });

  it('that is refused fails at once, so that another way is taken, and is still tried again', async () => {
    const there = await smsc();
    there.bindStatus = 0x0e;
    const { deps, channel, ready, out } = await bound(there);
    expect(await channel.send(out, never())).toEqual({
      kind: 'failed',
      reason: 'auth',
      permanent: 'channel',
      detail: 'bind answered with status 0x0e',
    });
    expect(channel.state().standing).toBe('broken');
    expect(await channel.send(out, never())).toMatchObject({ kind: 'failed', reason: 'auth' });
    there.bindStatus = 0;
    deps.clock.advance(2000);
    await ready();
    expect(await channel.send(out, never())).toMatchObject({ kind: 'sent' });
  });

  it('has no password where the environment has none', async () => {
    const there = await smsc();
    const { channel, out } = await bound(there, { password: 'NOT_THERE' });
    expect(await channel.send(out, never())).toMatchObject({
      reason: 'auth',
      detail: 'the environment variable NOT_THERE is not set',
    });
    expect(there.sessions).toEqual([]);
  });

  it('is left in good order: nothing more is taken in, what is under way is waited for', async () => {
    const there = await smsc();
    there.answerText = () => null;
    const { deps, channel, ready, out } = await bound(there, { window: 1 });
    await ready();
    const first = channel.send(out, never());
    const second = channel.send(out, never());
    await there.until(() => there.texts.length === 1);
    const closed = channel.close();
    expect(await second).toMatchObject({ kind: 'retry', reason: 'closed' });
    expect(await channel.send(out, never())).toMatchObject({ kind: 'retry', reason: 'closed' });
    there.sessions[0]?.send(there.texts[0]?.response({ message_id: 'm-9' }) as never);
    expect(await first).toEqual({ kind: 'sent', reference: 'm-9' });
    await closed;
    expect(channel.state().standing).toBe('closed');
    expect(deps.clock.waiting()).toBe(0);
  });
});

async function settle(): Promise<void> {
  for (let i = 0; i < 20; i += 1) await new Promise<void>((resolve) => setImmediate(resolve));
}

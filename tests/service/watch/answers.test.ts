// What people say to what they are told: silences, personal links, drills.

import { describe, expect, it, onTestFinished } from 'vitest';
import { createLinkTokens } from '#service/watch/link-tokens.ts';
import { mailbox } from '../../notify/smtp.ts';
import { startBurning, startForTest, TEN, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE } from './watched-demo.ts';

describe('a silence', () => {
  it('of the office keeps even a stop back until its end, and what stands goes on standing', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.service.watching.send();
    const made = await demo.api('POST', '/v1/silences', {
      site: 'north-block',
      minutes: 20,
      reason: 'the crew is on the radio',
    });
    expect(made.status).toBe(201);
    demo.heardBy(CREW);
    for (let i = 0; i < 3; i += 1) {
      demo.pass(5);
      await demo.reads({ ...TURNED, gustMph: 40 });
      await demo.minute();
    }
    // Nobody was asked, so that nobody has failed to answer either.
    expect([demo.heardBy(CREW), demo.heardBy(OFFICE)]).toEqual([[], []]);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('stop');
    // Past its hard end the asking goes on by itself.
    demo.pass(10);
    await demo.reads({ ...TURNED, gustMph: 40 });
    await demo.minute();
    expect(demo.heardBy(CREW).length).toBeGreaterThan(0);
  });

  it('keeps back a text that waits already, whoever else is told, until it is over', async () => {
    const demo = await startBurning();
    demo.gateway.bad.push({ status: 503 });
    await demo.reads(TURNED);
    await demo.service.watching.send();
    expect(demo.heardBy(CREW)).toEqual([]);
    await demo.api('POST', '/v1/silences', { site: 'north-block', minutes: 9, reason: 'on the radio' });
    for (let i = 0; i < 8; i += 1) {
      demo.pass(1);
      await demo.tells();
    }
    expect([demo.heardBy(CREW), demo.gateway.asked.length]).toEqual([[], demo.gateway.texts.length + 1]);
    demo.pass(1);
    await demo.reads(TURNED);
    await demo.tells();
    expect(demo.heardBy(CREW)).toEqual([expect.stringMatching(/: PUT IT OUT/)]);
  });

  it('of the crew silences no stop that was observed', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.service.watching.send();
    const desk = demo.service.watching.desk(demo.service.desk);
    const asked = { code: null, minutes: 60, reason: 'we know', by: 'Ana', key: null } as const;
    await desk.silence('own/north-block', { ...asked, role: 'crew' });
    demo.heardBy(CREW);
    demo.pass(6);
    await demo.reads(TURNED);
    await demo.minute();
    expect(demo.heardBy(CREW)).toEqual([expect.stringContaining('PUT IT OUT')]);
  });

  it('is ended by being deleted, never comes back, and is never longer than four hours', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.service.watching.send();
    const asked = { site: 'north-block', minutes: 240, reason: 'the crew is on the radio' };
    const made = await demo.api('POST', '/v1/silences', asked);
    const { status } = await demo.api('POST', '/v1/silences', { ...asked, minutes: 241 });
    expect([made.status, status]).toEqual([201, 400]);
    const ended = await demo.service.app.inject({
      method: 'DELETE',
      url: `/v1/silences/${made.body['id']}`,
    });
    expect(ended.statusCode).toBeLessThan(300);
    expect((await demo.api('GET', '/v1/silences')).body['silences']).toEqual([]);
    demo.heardBy(CREW);
    demo.pass(6);
    await demo.reads(TURNED);
    await demo.minute();
    expect(demo.heardBy(CREW).length).toBe(1);
  });
});

describe('a personal link', () => {
  const press = (at: string, answer = 'got-it') => ({
    method: 'POST' as const,
    url: at,
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
    payload: `answer=${answer}`,
  });

  it('comes with the mail, shows by GET, answers by POST alone, and is nothing where it was forged', async () => {
    const box = await mailbox();
    onTestFinished(box.close);
    const demo = await startBurning((yaml) =>
      `listen: { publicUrl: "https://pits.example.org" }\n${yaml}`
        .replace(
          'channels:\n',
          `$&  mail: { kind: email, host: 127.0.0.1, port: ${box.port}, security: plain, from: "pits@orchard.example" }\n`,
        )
        .replace('{ channel: text, to: "+15550100001" }', '{ channel: mail, to: "ana@orchard.example" }'),
    );
    await demo.reads(TURNED);
    await demo.service.watching.send();
    const mail = box.mails.at(-1);
    expect(mail?.subject).toContain('PUT IT OUT');
    const url = /https:\/\/pits\.example\.org(\/a\/\S+)/.exec(String(mail?.text))?.[1] ?? '';
    // Its text to a telephone has no link in it.
    expect(demo.gateway.texts.every(({ text }) => !text.includes('http'))).toBe(true);

    const open = await demo.store.watch.openThreads(100);
    const id = String(open.find(({ message }) => message.needsAnswer)?.message.id);
    const answers = async () => (await demo.store.watch.thread(id))?.answers ?? [];
    // A program that looks the link up beforehand answers nothing.
    const { app } = demo.service;
    for (const method of ['GET', 'HEAD'] as const) {
      const page = await app.inject({ method, url });
      expect([page.statusCode, page.headers['cache-control']]).toEqual([200, 'no-store']);
    }
    expect(await answers()).toEqual([]);
    const forged = createLinkTokens('guessed').make(id, 'ana');
    const bad = [`/a/${forged}`, `${url}x`, '/a/x', `/a/${url.slice(3).split('.')[0]}.`];
    for (const at of bad) expect((await app.inject(press(at))).statusCode).toBe(404);
    expect(await answers()).toEqual([]);
    const pressed = [await app.inject(press(url)), await app.inject(press(url))];
    expect(pressed.map(({ statusCode }) => statusCode)).toEqual([303, 303]);
    expect((await answers()).map(({ contact, said, via }) => ({ contact, said, via }))).toEqual([
      { contact: 'ana', said: 'got-it', via: 'link' },
    ]);
    const before = [box.mails.length, demo.gateway.texts.length];
    demo.pass(15);
    await demo.reads(TURNED);
    await demo.minute();
    expect([box.mails.length, demo.gateway.texts.length]).toEqual(before);
    expect((await demo.api('GET', `${SITE}/now`)).body['verdict']).toBe('stop');
  });
});

describe('an answer', () => {
  it('of "cannot" asks the next at once, and leaves the one who cannot alone', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.tells();
    demo.heardBy(CREW);
    demo.pass(1);
    expect(await demo.inbound(CREW, '2')).toBe('answer');
    await demo.tells();
    expect(demo.heardBy(LEAD)).toEqual([expect.stringContaining('PUT IT OUT')]);
    demo.pass(6);
    await demo.reads(TURNED);
    await demo.tells();
    expect(demo.heardBy(CREW)).toEqual([]);
    expect(demo.heardBy(LEAD)).toEqual([expect.stringContaining('Again')]);
  });

  it('over the API ends the asking and not what it is about, though the site is defined anew meanwhile', async () => {
    const demo = await startBurning();
    await demo.reads(TURNED);
    await demo.tells();
    demo.heardBy(CREW);
    const { body } = await demo.api('GET', `${SITE}/messages`);
    const [message] = (body['messages'] as { id: string; needsAnswer: boolean }[]).filter(
      (m) => m.needsAnswer,
    );
    const answered = await demo.api('POST', `/v1/messages/${message?.id}/answers`, {
      answer: 'got-it',
      by: 'Ana',
    });
    expect(answered.body['answers']).toMatchObject([{ contact: 'Ana', answer: 'got-it', via: 'api' }]);
    // Other limits are other than those of before in nothing that stands: nobody is told the same again.
    const limits = await demo.api('GET', '/v1/limit-sets/valley');
    await demo.limits([
      ...(limits.body['body'] as object[]),
      { element: 'skyCover', atMost: { hold: '100 %' }, source: 'ours' },
    ]);
    for (let i = 0; i < 3; i += 1) {
      demo.pass(5);
      await demo.reads(TURNED);
      await demo.minute();
    }
    expect([demo.heardBy(CREW), demo.heardBy(LEAD)]).toEqual([[], []]);
    const { body: notices } = await demo.api('GET', '/v1/notices?site=north-block');
    const stop = (
      notices['notices'] as { code: string; phase: string; acknowledgedBy: string | null }[]
    ).find(({ code }) => code === 'smoke-turned-to-place');
    expect(stop).toMatchObject({ phase: 'raised', acknowledgedBy: 'Ana' });
  });
});

describe('a digit', () => {
  it('from a gateway that gives its texts no names answers each time, and sent again once', async () => {
    const demo = await startBurning();
    const post = async () =>
      (await demo.api('POST', '/v1/inbound/text', { from: CREW, text: '1' })).body['taken'];
    const answered = async () => {
      const { body } = await demo.api('GET', `${SITE}/messages`);
      return (body['messages'] as { answers: unknown[] }[]).map(({ answers }) => answers.length);
    };
    await demo.reads(TURNED);
    await demo.service.watching.send();
    demo.pass(1);
    expect([await post(), await post()]).toEqual(['answer', 'no-open-message']);
    expect((await answered()).filter((count) => count > 0)).toEqual([1]);
    demo.pass(14);
    await demo.reads({ ...TURNED, gustMph: 40 });
    await demo.minute();
    demo.pass(1);
    expect(await post()).toBe('answer');
    expect((await answered()).filter((count) => count > 0).length).toBe(2);
    demo.heardBy(CREW);
    demo.heardBy(LEAD);
    demo.pass(12);
    await demo.reads({ ...TURNED, gustMph: 40 });
    await demo.minute();
    expect([demo.heardBy(CREW), demo.heardBy(LEAD)]).toEqual([[], []]);
  });
});

describe('a drill', () => {
  it('is told to all contacts of the site in their turn, marked as one, and not twice within ten minutes', async () => {
    const demo = await startForTest(TEN);
    const drill = await demo.api('POST', `${SITE}/drill`, { by: 'Office' });
    expect([drill.status, drill.body['kind']]).toEqual([202, 'drill']);
    await demo.minute();
    expect(demo.gateway.texts.map(({ to }) => to)).toEqual([CREW]);
    expect((await demo.api('POST', `${SITE}/drill`, { by: 'Office' })).status).toBe(429);
    // Nobody answers: the next is asked, as if it were no drill.
    for (let i = 0; i < 4; i += 1) {
      demo.pass(5);
      await demo.minute();
    }
    const told = new Set(demo.gateway.texts.map(({ to }) => to));
    expect(told).toEqual(new Set([CREW, LEAD, OFFICE]));
    for (const { text } of demo.gateway.texts) expect(text).toMatch(/DRILL/);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    const before = demo.gateway.texts.length;
    demo.pass(30);
    await demo.minute();
    expect(demo.gateway.texts.length).toBe(before);
    // Nothing stands because of a drill.
    expect((await demo.api('GET', '/v1/notices?site=north-block')).body['notices']).toEqual([]);
  });
});

// Answers that come after somebody else's, or when their message has ended: whoever cannot is heard in any case.

import { describe, expect, it } from 'vitest';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

async function noticeOf(demo: WatchedDemo, wanted: string) {
  const { body } = await demo.api('GET', '/v1/notices?site=north-block');
  const notices = body['notices'] as { code: string; acknowledgedBy: string | null }[];
  return notices.find(({ code }) => code === wanted);
}

const stopNotice = (demo: WatchedDemo) => noticeOf(demo, 'smoke-turned-to-place');

/** What asks for an answer and has not ended. */
const openOf = async (demo: WatchedDemo) =>
  (await demo.store.watch.openThreads(99)).filter(({ message }) => message.needsAnswer);

/** The wind is back for long enough: the stop is over, and its message has ended. */
async function windBack(demo: WatchedDemo, reading?: Parameters<WatchedDemo['reads']>[0]): Promise<void> {
  for (let i = 0; i < 9; i += 1) {
    demo.pass(5);
    await demo.reads(reading);
    await demo.minute();
  }
}

/** The stop, told to both of the crew; gives its id. */
async function stopToldToBoth(demo: WatchedDemo): Promise<string> {
  await demo.reads(TURNED);
  await demo.tells();
  demo.pass(10);
  await demo.reads(TURNED);
  await demo.tells();
  demo.pass(1);
  const { body } = await demo.api('GET', `${SITE}/messages`);
  const told = (body['messages'] as { id: string; verdict: string; needsAnswer: boolean }[]).find(
    (m) => m.needsAnswer && m.verdict === 'stop',
  );
  for (const number of [CREW, LEAD, OFFICE]) demo.heardBy(number);
  return String(told?.id);
}

describe('a "cannot"', () => {
  it('after the "got it" of another opens the asking again: the next is asked at once, and nobody has it', async () => {
    const demo = await startBurning();
    const id = await stopToldToBoth(demo);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    await demo.minute();
    expect(await stopNotice(demo)).toMatchObject({ acknowledgedBy: 'ana' });
    demo.pass(2);
    expect(await demo.inbound(LEAD, '2')).toBe('answer');
    await demo.tells();
    expect(await stopNotice(demo)).toMatchObject({ acknowledgedBy: null });
    expect(demo.heardBy(OFFICE)).toEqual([expect.stringContaining('PUT IT OUT')]);
    demo.pass(1);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    expect(await stopNotice(demo)).toMatchObject({ acknowledgedBy: 'ana' });
    const thread = await demo.store.watch.thread(id);
    expect(thread?.answers.map(({ contact, said }) => `${contact} ${said}`)).toEqual([
      'ana got-it',
      'ben cannot',
      'ana got-it',
    ]);
  });

  it('to a message that has ended is kept with it and told to the office, by a digit and over the API', async () => {
    const demo = await startBurning();
    const id = await stopToldToBoth(demo);
    await windBack(demo);
    expect((await demo.store.watch.thread(id))?.closedAtMs).not.toBeNull();
    expect(await openOf(demo)).toEqual([]);
    demo.heardBy(OFFICE);
    expect(await demo.inbound(LEAD, '2', 'late-1')).toBe('answer');
    expect(await demo.inbound(LEAD, '2', 'late-1')).toBe('no-open-message');
    await demo.tells();
    expect(demo.heardBy(OFFICE)).toEqual([expect.stringContaining('Ben cannot do what a warning asked')]);
    demo.pass(1);
    const over = await demo.api('POST', `/v1/messages/${id}/answers`, { answer: 'cannot', by: 'ana' });
    expect([over.status, over.body['answers']]).toMatchObject([
      200,
      [
        { contact: 'ben', answer: 'cannot' },
        { contact: 'ana', answer: 'cannot' },
      ],
    ]);
    await demo.tells();
    expect(demo.heardBy(OFFICE)).toEqual([expect.stringContaining('Ana cannot do what a warning asked')]);
  });

  it('after the office was told that nobody answers, and then somebody did, is told to it again, and once', async () => {
    const demo = await startBurning();
    const nobody = expect.stringContaining('Nobody answers a warning');
    const id = await stopToldToBoth(demo);
    const untilTold = async (minutes: number) => {
      for (let i = 0; i < minutes; i += 1) {
        demo.pass(1);
        await demo.tells();
      }
      return demo.heardBy(OFFICE).filter((text) => !text.includes('PUT'));
    };
    expect(await untilTold(25)).toEqual([nobody]);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    expect(await untilTold(1)).toEqual([]);
    expect(await demo.inbound(LEAD, '2')).toBe('answer');
    expect((await demo.store.watch.thread(id))?.closedAtMs).toBeNull();
    expect(await untilTold(2)).toEqual([nobody]);
  });

  it('to a message that asks for no answer is refused, and says why', async () => {
    const demo = await startBurning();
    const { body } = await demo.api('GET', `${SITE}/messages`);
    const news = (body['messages'] as { id: string; needsAnswer: boolean }[]).find((m) => !m.needsAnswer);
    const { status, body: problem } = await demo.api('POST', `/v1/messages/${news?.id}/answers`, {
      answer: 'cannot',
    });
    expect([status, problem['code']]).toEqual([400, 'bad_body']);
  });
});

describe('a digit', () => {
  it('that comes in again when its message has ended is no answer to what was told since', async () => {
    const demo = await startBurning();
    const id = await stopToldToBoth(demo);
    // Two of one text at one moment are one, too.
    const both = [demo.inbound(CREW, '1', 'once'), demo.inbound(CREW, '1', 'once')];
    expect(await Promise.all(both)).toContain('answer');
    expect((await demo.store.watch.thread(id))?.answers).toHaveLength(1);
    await windBack(demo);
    demo.pass(5);
    const next = await stopToldToBoth(demo);
    expect(next).not.toBe(id);
    expect(await demo.inbound(CREW, '1', 'once')).toBe('no-open-message');
    expect(await stopNotice(demo)).toMatchObject({ acknowledgedBy: null });
    expect((await demo.store.watch.thread(next))?.answers).toEqual([]);
    expect(await demo.inbound(CREW, '1', 'twice')).toBe('answer');
    expect(await stopNotice(demo)).toMatchObject({ acknowledgedBy: 'ana' });
  });

  it('after what was told last has ended neither takes back nor takes on what was told before it', async () => {
    const demo = await startBurning();
    const gusts = { gustMph: 40 };
    await demo.reads(gusts);
    await demo.tells();
    demo.pass(1);
    const [gusty] = await openOf(demo);
    expect(await demo.inbound(CREW, '1')).toBe('answer');
    demo.pass(4);
    await demo.reads({ ...TURNED, ...gusts });
    await demo.tells();
    const turned = (await openOf(demo)).at(-1);
    demo.pass(10);
    await demo.reads({ ...TURNED, ...gusts });
    await demo.tells();
    await windBack(demo, gusts);
    expect((await openOf(demo)).map(({ message }) => message.id)).toEqual([gusty?.message.id]);
    demo.heardBy(OFFICE);
    expect(await demo.inbound(CREW, '2')).toBe('answer');
    await demo.tells();
    const said = async (id: string | undefined) =>
      (await demo.store.watch.thread(String(id)))?.answers.map(({ said: word }) => word);
    expect([await said(gusty?.message.id), await said(turned?.message.id)]).toEqual([['got-it'], ['cannot']]);
    expect(await noticeOf(demo, 'observed-beyond-limit')).toMatchObject({ acknowledgedBy: 'ana' });
    expect(demo.heardBy(OFFICE)).toEqual([expect.stringContaining('Ana cannot do what a warning asked')]);
  });
});

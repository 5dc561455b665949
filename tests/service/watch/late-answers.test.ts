// Answers that come after somebody else's, or when their message has ended: whoever cannot is heard in any case.

import { describe, expect, it } from 'vitest';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, SITE, type WatchedDemo } from './watched-demo.ts';

async function stopNotice(demo: WatchedDemo) {
  const { body } = await demo.api('GET', '/v1/notices?site=north-block');
  const notices = body['notices'] as { code: string; acknowledgedBy: string | null }[];
  return notices.find(({ code }) => code === 'smoke-turned-to-place');
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
    // The wind is back for long enough: the stop is over, and its message has ended.
    for (let i = 0; i < 9; i += 1) {
      demo.pass(5);
      await demo.reads();
      await demo.minute();
    }
    expect((await demo.store.watch.thread(id))?.closedAtMs).not.toBeNull();
    const open = (await demo.store.watch.openThreads(99)).filter(({ message }) => message.needsAnswer);
    expect(open).toEqual([]);
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

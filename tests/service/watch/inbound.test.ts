// What comes in over a channel: who wants no more texts stays left alone whatever they are called, and whatever is neither
// an answer nor an opt-out word is read by the office. What is said is invented.

import { describe, expect, it } from 'vitest';
import { startBurning, TURNED } from './start-burning.ts';
import { CREW, LEAD, OFFICE, type WatchedDemo } from './watched-demo.ts';

const texts = (demo: WatchedDemo, number: string): string[] => demo.heardBy(number);

/** A stop for everybody who is told at all. */
async function turns(demo: WatchedDemo, mph = 8): Promise<void> {
  await demo.reads({ ...TURNED, mph });
  await demo.minute();
}

describe('a number that opted out', () => {
  const renamed = { id: 'ana-2', name: 'Ana', role: 'crew', sites: ['north-block'] };

  it('gets nothing under another name, nor as somebody else, until it opts in again', async () => {
    const demo = await startBurning();
    expect(await demo.inbound(CREW, 'STOP')).toBe('opt-out');
    const before = await demo.service.app.inject({ url: '/v1/contacts/ana' });
    const taken = await demo.service.app.inject({
      method: 'DELETE',
      url: '/v1/contacts/ana',
      headers: { 'if-match': String(before.headers['etag']) },
    });
    expect(taken.statusCode).toBe(204);
    const made = await demo.api('POST', '/v1/contacts', {
      ...renamed,
      ways: [{ channel: 'text', to: CREW }],
    });
    expect(made.status).toBe(201);
    await turns(demo);
    expect(texts(demo, CREW)).toEqual([]);
    expect(texts(demo, LEAD).length).toBe(1);
    expect(await demo.inbound(CREW, 'START')).toBe('opt-in');
    demo.pass(5);
    await turns(demo, 20);
    expect(texts(demo, CREW).length).toBeGreaterThan(0);
  });

  it('at its network is told to the office as one that wrote so, and once', async () => {
    const demo = await startBurning((yaml) =>
      yaml.replace(
        '    reference: /ref\n',
        '$&    rules: [{ when: [{ statuses: [451] }], means: opted-out }]\n',
      ),
    );
    demo.gateway.bad.push({ status: 451 });
    await turns(demo);
    demo.pass(1);
    await demo.minute();
    const told = texts(demo, OFFICE).filter((text) => text.includes('wants no more'));
    expect(told).toEqual([expect.stringContaining('Ana wants no more texts')]);
  });
});

describe('what is neither an answer nor a word to opt out', () => {
  const told = (demo: WatchedDemo): string[] =>
    texts(demo, OFFICE).filter((text) => text.includes('writes:'));

  it('is read by the office in the words of whoever wrote it, and takes nobody off the list', async () => {
    const demo = await startBurning();
    expect(await demo.inbound(CREW, 'No mas lena, ya tapamos')).toBe('other');
    expect(await demo.inbound(CREW, 'please stop texting me')).toBe('other');
    await demo.minute();
    expect(told(demo)).toEqual([
      // The words by which people leave do not stand as such in a text of ours, not even quoted.
      expect.stringContaining(`Ana writes: "N'o mas lena, ya tapamos"`),
      expect.stringContaining(`Ana writes: "please sto'p texting me"`),
    ]);
    await turns(demo);
    expect(texts(demo, CREW).length).toBe(1);
  });

  it('of a number that nobody knows is told once, and a number without its plus sign is the same', async () => {
    const demo = await startBurning();
    expect(await demo.inbound('+15550999', 'who is this')).toBe('nobody-known');
    expect(await demo.inbound('+15550999', 'hello?')).toBe('nobody-known');
    await demo.minute();
    expect(told(demo)).toEqual([expect.stringContaining('+15550999 writes: "who is this"')]);
    expect(await demo.inbound(CREW.slice(1), 'STOP')).toBe('opt-out');
  });
});

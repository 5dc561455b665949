// The text about a day: what the page shows before is what the phone gets, and what it shows after is what the phone got.

import { afterEach, describe, expect, it } from 'vitest';
import { wordsOf } from '../../publish/page/read-page.ts';
import { CREW, LEAD, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

/** 5:00 pm at the sites of the demo, five minutes before the evening text. */
const BEFORE_EVENING = '2026-04-15T00:00:00Z';

let demo: WatchedDemo;
afterEach(() => demo.close());

const start = async (now: string, change?: (yaml: string) => string): Promise<void> => {
  demo = await startWatchedDemo(now, change);
};
const page = async (query: string): Promise<string> =>
  (await demo.service.app.inject({ url: `/sites/north-block?${query}` })).body;
const quotes = (html: string): string[] =>
  [...html.matchAll(/<blockquote lang="\w+">(.*?)<\/blockquote>/g)].map((m) => wordsOf(m[1] ?? ''));
const sentTo = (number: string): string[] =>
  demo.gateway.texts.filter(({ to }) => to === number).map(({ text }) => text);
const inSpanish = (yaml: string): string =>
  yaml.replace('name: Ben, role: crew', 'name: Ben, language: es, role: crew');

describe('the evening text', () => {
  it('is shown before it goes out as it then goes out, in each language that the crew reads', async () => {
    await start(BEFORE_EVENING, inSpanish);
    const shown = await page('day=tomorrow');
    expect(wordsOf(shown)).toContain(
      'Evening text to the crew Goes out Tue, Apr 14, 5:05 pm. If it went out now:',
    );
    demo.pass(5);
    await demo.minute();
    expect(quotes(shown)).toEqual([sentTo(CREW)[0], sentTo(LEAD)[0]]);
    expect(sentTo(LEAD)[0]).toMatch(/ADELANTE|NO ENCENDER/);
  });

  it('is shown afterwards as it went out, whatever has changed since', async () => {
    await start(BEFORE_EVENING);
    demo.pass(5);
    await demo.minute();
    demo.pass(120);
    await demo.service.keeper.pullAll();
    const shown = await page('day=tomorrow');
    expect(wordsOf(shown)).toContain('Evening text to the crew Went out Tue, Apr 14, 5:05 pm:');
    expect(quotes(shown)).toEqual(sentTo(CREW));
  });

  it('that did not go out in its time is said not to have', async () => {
    await start('2026-04-15T03:30:00Z');
    const shown = await page('day=tomorrow');
    expect(wordsOf(shown)).toContain('Was due Tue, Apr 14, 5:05 pm. None went out.');
    expect(quotes(shown)).toEqual([]);
  });

  it('of a day beyond the plan of the watch is written later', async () => {
    await start(BEFORE_EVENING);
    const shown = await page('day=2026-04-19');
    expect(wordsOf(shown)).toContain('Goes out Sat, Apr 18, 5:05 pm, and is written then.');
  });

  it('is none where nobody is there to get it, nor for a day that is over', async () => {
    await start(BEFORE_EVENING, (yaml) => yaml.replaceAll('role: crew', 'role: office'));
    expect(await page('day=tomorrow')).not.toContain('text to the crew');
    await demo.close();
    await start(BEFORE_EVENING);
    expect(await page('day=2026-04-13')).not.toContain('text to the crew');
  });
});

describe('the dawn text', () => {
  it('of today tells what moved since the evening, before it goes out and then', async () => {
    await start(BEFORE_EVENING);
    demo.pass(5);
    await demo.minute();
    demo.clock.nowMs = Date.parse('2026-04-15T11:44:00Z');
    await demo.service.keeper.pullAll();
    const shown = await page('day=today');
    expect(wordsOf(shown)).toContain(
      'Dawn text to the crew Goes out Wed, Apr 15, 4:45 am. If it went out now:',
    );
    demo.pass(1);
    await demo.minute();
    expect(quotes(shown)).toEqual([sentTo(CREW).at(-1)]);
    expect(sentTo(CREW).at(-1)).toMatch(/Same|CHANGED/);
  });
});

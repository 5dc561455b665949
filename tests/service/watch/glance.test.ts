// The glance over the real service, as a browser without script asks for it and sends its form.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startForTest, TEN, TURNED } from './start-burning.ts';
import { CREW, SITE, startWatchedDemo, type WatchedDemo } from './watched-demo.ts';

const URL_OF = '/sites/north-block/now';
const FORM = { 'content-type': 'application/x-www-form-urlencoded' };

type Body = Record<string, unknown>;
const burnOf = (body: Body) => body['burn'] as { id: string; state: string; openedAt: string } | null;

/** The page as text, its buttons by their labels, and the hidden fields of its form. */
async function glance(demo: WatchedDemo, query = '', headers = {}) {
  const { body, statusCode, headers: told } = await demo.service.app.inject({ url: URL_OF + query, headers });
  const buttons = new Map(
    [...body.matchAll(/<button[^>]* value="([^"]*)">([^<]*)<\/button>/g)].map(([, value, label]) => [
      (label ?? '').replaceAll('&quot;', '"'),
      value ?? '',
    ]),
  );
  const hidden = (name: string): string => new RegExp(`name="${name}" value="([^"]*)"`).exec(body)?.[1] ?? '';
  const press = (label: string, more: Record<string, string> = {}) => {
    const value = buttons.get(label);
    if (value === undefined) throw new Error(`no button "${label}", only ${[...buttons.keys()].join(', ')}`);
    const fields = { form: hidden('form'), messages: hidden('messages'), by: '', do: value, at: '', ...more };
    return demo.service.app.inject({
      method: 'POST',
      url: URL_OF + query,
      headers: FORM,
      payload: new URLSearchParams(fields).toString(),
    });
  };
  const words = body
    .replace(/<(style|svg)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
  return { body, words, statusCode, told, buttons: [...buttons.keys()], press };
}

/** The word and the sentence. */
function spokenIn(body: string): string[] {
  const found = /<span class="w[^"]*"><svg.*?<\/svg>([^<]*)<\/span><\/h1>\s*<p class="s">([^<]*)<\/p>/s.exec(
    body,
  );
  return (found ?? []).slice(1).map((text) => text.replaceAll('&#39;', "'").replaceAll('&quot;', '"'));
}

const NEXT_AT =
  /<p class="box if-good"><b>[^<]*<\/b>[^<]*<span[^>]*>[^<]*<\/span>, <b class="num"><time datetime="([^"]*)">/;

/** Tells when to light or to give wood, in a box that is withdrawn with the rest. */
function isTimed(body: string, answer: Body): boolean {
  const at = NEXT_AT.exec(body)?.[1];
  return at !== undefined && [answer['lightUp'], answer['lastCharge']].includes(at);
}

/** What the page must say of when it is void. */
const voidOf = (body: string, answer: Body): string =>
  answer['verdict'] === 'go' || isTimed(body, answer)
    ? `data-void="${Date.parse(String(answer['goodUntil']))}"`
    : 'data-void=""';

const now = async (demo: WatchedDemo): Promise<Body> => (await demo.api('GET', `${SITE}/now`)).body;

describe('the glance', () => {
  let demo: WatchedDemo;
  beforeAll(async () => {
    demo = await startWatchedDemo(TEN);
    await demo.reads();
  });
  afterAll(() => demo.close());

  it('says in one word and one sentence what the API says, through a whole day, in both languages', async () => {
    const WORDS = {
      en: { go: 'GO', hold: 'HOLD', stop: 'STOP', unknown: "CAN'T SAY" },
      es: { go: 'ADELANTE', hold: 'ESPERE', stop: 'ALTO', unknown: 'NO SE SABE' },
    } as const;
    const seen = new Set<string>();
    const day = await startForTest('2026-04-14T11:00:00Z');
    for (let hour = 4; hour < 22; hour += 1) {
      await day.service.keeper.pullAll();
      if (hour % 3 === 0 || hour === 10) await day.reads(hour === 12 ? TURNED : {});
      if (hour === 10) await day.lights();
      await day.minute();
      for (const lang of ['en', 'es'] as const) {
        const { body: answer } = await day.api('GET', `${SITE}/now?lang=${lang}`);
        const { body } = await glance(day, `?lang=${lang}`);
        const mark = answer['unknown'] === true ? 'unknown' : (answer['verdict'] as 'go');
        seen.add(mark);
        expect([hour, ...spokenIn(body)]).toEqual([hour, WORDS[lang][mark], answer['text']]);
      }
      day.pass(60);
    }
    expect([...seen].sort()).toEqual(['go', 'hold', 'stop', 'unknown']);
  });

  it('is void with its answer where it says go, or when to light or to give wood', async () => {
    const timed: unknown[] = [];
    const day = await startForTest('2026-04-14T11:00:00Z');
    for (let hour = 4; hour < 20; hour += 2) {
      await day.service.keeper.pullAll();
      if (hour % 4 === 0) await day.reads();
      if (hour === 10) await day.lights();
      await day.minute();
      const { body: answer } = await day.api('GET', `${SITE}/now`);
      const { body } = await glance(day);
      expect(body).toContain(voidOf(body, answer));
      if (isTimed(body, answer)) timed.push(answer['verdict']);
      day.pass(120);
    }
    expect(timed).toContain('hold');
  });

  it('tells the next moment with the time to it and its clock time, and each age of its own', async () => {
    const { lastCharge } = await now(demo);
    expect(lastCharge).toContain('T12:30:00');
    const { words } = await glance(demo);
    expect(words).toMatch(/Next: last charge in 2 h 30 min , at 12:30 pm/);
    expect(words).toMatch(/Forecast made [^(]*\( ?\d.* old ?\)\. Station mast 10:00 am \( ?0 min old ?\)/);
    expect(words).toMatch(/This page was written 10:00 am/);
    expect(words).toMatch(/Void after 10:10 am\./);
  });

  it('is found from the page of the day, and leads back to it', async () => {
    const { body } = await demo.service.app.inject({ url: '/sites/north-block?lang=es' });
    expect(body).toContain('href="/sites/north-block/now?lang=es"');
    expect((await glance(demo, '?lang=es')).body).toContain('href="/sites/north-block?lang=es"');
  });
});

describe('the taps of the glance, by forms alone', () => {
  it('go from lit to covered, the sensible next one first, each once however often it is pressed', async () => {
    const demo = await startForTest(TEN);
    await demo.reads();
    const first = await glance(demo);
    expect(first.buttons[0]).toBe('Lit');
    const sent = await first.press('Lit', { by: 'Ana' });
    expect([sent.statusCode, sent.headers.location]).toEqual([303, URL_OF]);
    // The same page, pressed again with a thumb that slipped.
    expect((await first.press('Lit', { by: 'Ana' })).statusCode).toBe(303);
    const { body } = await demo.api('GET', `${SITE}/burns`);
    expect((body['burns'] as unknown[]).length).toBe(1);
    expect(burnOf(await now(demo))).toMatchObject({ state: 'lit', taps: [{ by: 'Ana', from: 'page' }] });
    for (const [label, state] of [
      ['Charging', 'charging'],
      ['Burning down', 'burning-down'],
    ] as const) {
      demo.pass(10);
      const page = await glance(demo);
      expect(page.buttons[0]).toBe(label);
      await page.press(label);
      expect(burnOf(await now(demo))?.state).toBe(state);
    }
    demo.pass(60);
    await (await glance(demo)).press('Covered');
    expect(burnOf(await now(demo))).toBeNull();
  });

  it('keep the name for the next tap, and take that of the key where none is written', async () => {
    const demo = await startForTest(TEN);
    const sent = await (await glance(demo)).press('Lit', { by: 'Ana María; "Q"' });
    const cookie = String(sent.headers['set-cookie']);
    expect(cookie).toMatch(/HttpOnly; SameSite=Strict$/);
    const { body } = await glance(demo, '', { cookie: `other=1; ${cookie.split(';')[0]}` });
    expect(body).toContain('value="Ana María; &quot;Q&quot;"');
    demo.pass(1);
    await (await glance(demo)).press('Charging');
    const taps = (burnOf(await now(demo)) as unknown as { taps: { by: string }[] }).taps;
    expect(taps.map(({ by }) => by)).toEqual(['Ana María; "Q"', 'this machine']);
  });

  it('are put right: another clock time, taken back, and a cover that was none', async () => {
    const demo = await startForTest(TEN);
    await (await glance(demo)).press('Lit');
    await (await glance(demo)).press('Put the time right', { at: '09:40' });
    expect(burnOf(await now(demo))?.openedAt).toContain('T09:40:00');
    expect((await (await glance(demo)).press('Put the time right')).statusCode).toBe(400);
    demo.pass(5);
    await (await glance(demo)).press('Put out early');
    demo.pass(5);
    await (await glance(demo)).press('Covered');
    expect(burnOf(await now(demo))).toBeNull();
    demo.pass(5);
    const page = await glance(demo);
    await page.press('Not so: take back "Covered" of 10:10 am');
    expect(burnOf(await now(demo))?.state).toBe('put-out-early');
  });

  it('tap beside it a second pit, and each can be covered by itself', async () => {
    const demo = await startForTest(TEN);
    await (await glance(demo)).press('Lit');
    demo.pass(10);
    await (await glance(demo)).press('Another pit lit');
    const { body } = await demo.api('GET', `${SITE}/burns`);
    expect((body['burns'] as unknown[]).length).toBe(2);
    const { words } = await glance(demo);
    // The large buttons are for the one, and below is the other.
    expect(words.match(/Pit lit 10:\d\d am/g)?.toSorted()).toEqual(['Pit lit 10:00 am', 'Pit lit 10:10 am']);
  });

  it('cover two pits from one page: each cover is kept, and none ends the watch of a pit without one', async () => {
    const demo = await startForTest(TEN);
    const one = await demo.lights();
    demo.pass(10);
    const two = await demo.lights();
    const press = async (what: string) => {
      const payload = new URLSearchParams({ form: 'abcdefghij', do: what, by: 'Ana' }).toString();
      return (await demo.service.app.inject({ method: 'POST', url: URL_OF, headers: FORM, payload }))
        .statusCode;
    };
    const read = async (burn: string): Promise<[unknown, string[]]> => {
      const { body } = await demo.api('GET', `${SITE}/burns/${burn}`);
      return [body['state'], (body['taps'] as { tap: string }[]).map(({ tap }) => tap)];
    };
    demo.pass(60);
    expect(await press(`covered ${one}`)).toBe(303);
    expect(burnOf(await now(demo))?.id).toBe(two);
    expect(await press(`covered ${two}`)).toBe(303);
    expect(await press(`covered ${two}`)).toBe(303);
    expect([await read(one), await read(two)]).toEqual([
      ['covered', ['lit', 'covered']],
      ['covered', ['lit', 'covered']],
    ]);
  });

  it.each([
    { do: 'light' },
    { do: 'charging a b c d' },
    { do: 'undo burn-1' },
    { do: 'lit', form: 'x' },
    { do: 'lit', at: '25:00' },
    { do: 'lit', more: '1' },
  ])('refuse the form %j on a page', async (fields) => {
    const demo = await startForTest(TEN);
    const { statusCode, headers } = await demo.service.app.inject({
      method: 'POST',
      url: URL_OF,
      headers: FORM,
      payload: new URLSearchParams({ form: 'abcdefghij', ...fields } as Record<string, string>).toString(),
    });
    expect([statusCode, headers['content-type']]).toEqual([400, 'text/html; charset=utf-8']);
    expect(burnOf(await now(demo))).toBeNull();
  });
});

describe('"I have seen this"', () => {
  it('acknowledges what stands and what the page showed; then nobody is asked again', async () => {
    const demo = await startForTest(TEN);
    await demo.reads();
    await demo.lights();
    await demo.minute();
    demo.pass(5);
    expect((await glance(demo)).buttons).not.toContain('I have seen this');
    await demo.reads(TURNED);
    await demo.tells();
    demo.heardBy(CREW);
    const page = await glance(demo);
    expect(page.words).toMatch(/STOP .*Changed 10:05 am: .*county road/);
    expect((await page.press('I have seen this', { by: 'Ana' })).statusCode).toBe(303);
    const after = await glance(demo);
    expect(after.words).toMatch(/Seen by Ana\./);
    expect(after.words).toContain('STOP');
    expect(after.buttons).not.toContain('I have seen this');
    demo.pass(5);
    await demo.reads(TURNED);
    await demo.tells();
    expect(demo.heardBy(CREW)).toEqual([]);
  });
});

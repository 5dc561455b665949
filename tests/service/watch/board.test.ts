// The board says what the API says, to whom it may say it, and goes on where nobody can say.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startBoardScene } from '../../browser/board-scene.ts';
import { wordsOf } from '../../publish/page/read-page.ts';
import { startKeyed } from '../keyed.ts';
import type { Running } from '../running.ts';
import { startForTest, TEN } from './start-burning.ts';

let running: Running;
beforeAll(async () => {
  running = await startBoardScene();
});
afterAll(() => running.close());

const get = async (url: string) => {
  const answer = await running.service.app.inject({ url });
  expect(answer.statusCode, `${url}: ${answer.body.slice(0, 300)}`).toBe(200);
  return answer;
};
const board = async (query = '') => (await get(`/board?${query}`)).body;
/** The part of the page that is about one site. */
const rowOf = (page: string, site: string): string => {
  const row = page.split('<li id="pin-').find((part) => part.includes(`href="/sites/${site}`));
  if (row === undefined) throw new Error(`${site} is not on the board`);
  return wordsOf(row.split('</li>')[0] ?? '');
};

describe('the board', () => {
  it('counts what burns and what may light', async () => {
    const page = wordsOf(await board());
    expect(page).toContain('2 pits burn now, 1 more has a go window left today');
    expect(wordsOf(await board('lang=es'))).toContain(
      'Arden 2 fosas ahora, a 1 más le queda hoy una ventana buena',
    );
  });

  it.each(['creek-block', 'ridge-block', 'north-block'])('says of %s what GET …/now says', async (site) => {
    const now = (await get(`/v1/sites/${site}/now`)).json();
    const row = rowOf(await board(), site);
    const word = now.unknown ? 'CAN’T SAY' : { go: 'GO', hold: 'HOLD', stop: 'STOP' }[now.verdict as 'go'];
    expect(row.replaceAll("'", '’')).toContain(word);
    expect(row).toContain(now.text);
  });

  it('tells of a burn who tapped what when, until when it is to be covered, and where its smoke goes', async () => {
    const row = rowOf(await board(), 'ridge-block');
    expect(row).toContain('Burning down, since 10:20 am.');
    expect(row).toContain('Last tap Burning down, 10:20 am, by Teo');
    expect(row).toContain('Variable wind, no direction; read by meter at 10:25 am (5 min old).');
    expect(rowOf(await board(), 'creek-block')).toContain(
      'Smoke goes Toward NNE (30°), 20° on either side; read by meter at 10:25 am (5 min old).',
    );
  });

  it('tells permit, a telephone that can be called, the way and the position in both notations', async () => {
    const page = await board();
    const row = rowOf(page, 'ridge-block');
    expect(row).toContain('Permit 26-021, county');
    expect(row).toContain('Ridge track, past the farm school, up the hill');
    // 0.296 × 60 = 17.76, 0.342 × 60 = 20.52.
    expect(row).toContain('36.29600, -120.34200; 36° 17.760′ N 120° 20.520′ W (WGS 84); USNG 10S GF');
    expect(page).toContain('<a class="tap" href="tel:+15555550113">+1 555 555 0113</a>');
  });

  it('says when it was written, and loads anew by itself only where that is asked for', async () => {
    const plain = await get('/board');
    expect(wordsOf(plain.body)).toContain('Written Tue, Apr 14, 10:30:00 am PDT');
    expect(plain.headers['refresh']).toBeUndefined();
    const every = await get('/board?every=60&lang=es');
    expect(every.headers['refresh']).toBe('60');
    expect(every.body).toContain('href="?lang=es"');
    expect((await running.service.app.inject({ url: '/board?every=1' })).statusCode).toBe(400);
  });

  it.each([
    'at=36.42,-120.13',
    'at=36.25,-120.40',
    'at=36.42,-120.13&time=2026-04-14T09:20',
    'at=36 25.2 N, 120 7.8 W',
  ])('answers ?%s as the API does', async (asked) => {
    const query = new URLSearchParams(asked);
    const time = query.get('time');
    const page = wordsOf(await board(String(query)));
    const at = query.get('at') ?? '';
    const params = new URLSearchParams({ at, ...(time === null ? {} : { time: `${time}:00-07:00` }) });
    const answer = (await get(`/v1/smoke-sources?${params}`)).json();
    const all = [...answer.covers, ...answer.cannotExclude, ...answer.outside];
    expect(all.length).toBe(2);
    let from = page.indexOf('Smoke at ');
    expect(from).toBeGreaterThan(0);
    for (const one of all) {
      const found = page.indexOf(wordsOf(one.text), from);
      expect(found, one.text).toBeGreaterThan(from);
      from = found;
    }
  });

  it('knows the names of sites and of what they protect', async () => {
    expect(wordsOf(await board('at=north block, PIT 1'))).toContain('Smoke at North block, pit 1 (36.43800');
    expect(wordsOf(await board('at=farm school'))).toContain('Smoke at farm school');
    expect(wordsOf(await board('at=&place=creek-block%7C0'))).toContain('Smoke at packing shed');
  });

  it.each([
    ['at=', 'Say where it is seen.'],
    ['at=Main street', 'That is no position, and no name of a site or a place.'],
    ['at=36.4,-120&time=soon', 'That is no date and time.'],
    ['at=36.4,-120&time=2026-04-14T10:40', 'That moment has not been yet.'],
    ['at=36.4,-120&time=2026-02-30T10:40', 'That is no date and time.'],
  ])('says of ?%s what is wrong, beside the field', async (asked, fault) => {
    const page = await board(asked);
    expect(wordsOf(page)).toContain(fault);
    expect(page).toContain('aria-invalid="true"');
    expect(wordsOf(page)).not.toContain('Smoke at ');
  });

  it('doubts a west that is written as east', async () => {
    expect(wordsOf(await board('at=36.42,120.13'))).toContain('is west written with a minus or a W?');
  });
});

describe('a pit that burns where nobody can say', () => {
  it('is on the board, without a go and without a sector', async () => {
    const demo = await startForTest(TEN);
    await demo.lights();
    demo.pass(16 * 60);
    const page = (await demo.service.app.inject({ url: '/board' })).body;
    const row = rowOf(page, 'north-block');
    expect(row).toContain('The forecast is too old to say');
    expect(row).not.toContain('GO ');
  });
});

describe('somebody else’s sites', () => {
  it('are neither on the board nor in an answer', async () => {
    const keyed = await startKeyed('2026-03-03T18:10:00Z');
    try {
      const ask = async (url: string, key: string) => {
        const headers = { authorization: `Bearer ${key}` };
        return (await keyed.service.app.inject({ url, headers })).body;
      };
      const admin = await keyed.mint({ scopes: ['admin'] });
      const lit = await keyed.service.app.inject({
        method: 'POST',
        url: '/v1/sites/creek-block/burns',
        headers: { authorization: `Bearer ${admin}` },
        payload: { tap: 'lit', by: 'Ana' },
      });
      expect(lit.statusCode).toBe(201);
      const north = await keyed.mint({ sites: ['north-block'] });
      for (const url of [
        '/board?at=36.42,-120.13',
        '/v1/smoke-sources?at=36.42,-120.13',
        '/board?at=packing+shed',
      ]) {
        expect(await ask(url, admin)).toContain('Creek block');
        expect(await ask(url, north)).not.toMatch(/creek|shed \(/i);
      }
    } finally {
      await keyed.close();
    }
  });
});

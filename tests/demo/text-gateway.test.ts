import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTextGateway, type TextGateway } from '#demo/text-gateway.ts';

const NOW = Date.parse('2026-04-14T17:00:00Z');
let gateway: TextGateway;
beforeAll(async () => {
  gateway = await startTextGateway(() => NOW);
});
afterAll(() => gateway.close());

const post = (body: string) => fetch(gateway.url, { method: 'POST', body });

describe('the text gateway of the demonstration', () => {
  it('takes a text once, however often it comes, and shows it', async () => {
    const text = JSON.stringify({ id: 'a1', to: '+15555550101', text: 'DEMO North: hello' });
    const answers = [await post(text), await post(text)];
    expect(await Promise.all(answers.map((answer) => answer.json()))).toEqual([
      { ref: 'demo-a1' },
      { ref: 'demo-a1' },
    ]);
    expect(gateway.texts).toEqual([{ id: 'a1', to: '+15555550101', text: 'DEMO North: hello', atMs: NOW }]);
    const shown = await (await fetch(new URL('/', gateway.url))).text();
    expect(shown).toMatch(/^DEMO[\s\S]*\+15555550101\n {2}DEMO North: hello/);
  });

  it.each(['', 'no json', '{"id":"b"}', JSON.stringify({ id: 'c', to: '+1', text: 'x'.repeat(9000) })])(
    'refuses what is no text (%#)',
    async (body) => {
      const before = gateway.texts.length;
      expect((await post(body)).status).toBe(400);
      expect(gateway.texts.length).toBe(before);
    },
  );

  it('has nothing at other addresses', async () => {
    expect((await fetch(new URL('/other', gateway.url))).status).toBe(404);
  });
});

// A start at which the source of the nearest stations cannot be asked, while a pit burns.

import { expect, it } from 'vitest';
import { startForTest, TEN } from './start-burning.ts';
import { CREW } from './watched-demo.ts';

it('a crew is told that nobody reads the wind, once a station may be silent so long', async () => {
  const demo = await startForTest(TEN, (yaml) =>
    yaml
      .replace(/^ {6}- \{ id: meter,.*$/m, '')
      .replace(
        /^ {6}- \{ id: mast,.*$/m,
        '      - { id: airfield, kind: nws, within: 5 mi, most: 1, period: 5 min }',
      ),
  );
  await demo.standIn.close();
  await demo.lights();
  await demo.minute();
  const atLightUp = demo.heardBy(CREW);
  expect(atLightUp.filter((text) => /No reading|watch said/.test(text))).toEqual([]);
  for (let i = 0; i < 3; i += 1) {
    demo.pass(5);
    await demo.minute();
  }
  // 12.5 minutes, at a look each five; with what else cannot be read then.
  const atMs = Date.parse('2026-04-14T17:15:00Z');
  expect(await demo.told('station-silent')).toEqual([{ kinds: ['raised'], atMs }]);
  expect(demo.heardBy(CREW)).toEqual([expect.stringContaining('NO WOOD')]);
});

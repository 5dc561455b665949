// A pit by which an airport measures: found by the source, and judged by, since the height of the pit is that of its cell.

import { expect, it } from 'vitest';
import { startForTest, TEN } from './start-burning.ts';
import { SITE } from './watched-demo.ts';

interface Told {
  readonly code: string;
  readonly truth: string;
}

it('the nearest station speaks for the pit: its readings are held against the limits, and nobody is told that none measures', async () => {
  const demo = await startForTest(TEN, (yaml) =>
    yaml
      .replace(/^ {6}- \{ id: meter,.*$/m, '')
      .replace(
        /^ {6}- \{ id: mast,.*$/m,
        '      - { id: airfield, kind: nws, within: 5 mi, most: 1, period: 5 min }',
      ),
  );
  await demo.lights();
  for (let i = 0; i < 4; i += 1) {
    demo.pass(5);
    await demo.minute();
  }
  const { body } = await demo.api('GET', `${SITE}/now`);
  expect(body['observation']).toMatchObject({ station: expect.stringMatching(/^airfield-/) });
  const conditions = body['conditions'] as readonly Told[];
  const truths = (code: string) => conditions.filter((c) => c.code === code).map(({ truth }) => truth);
  expect(truths('wind-unmeasured')).not.toContain('true');
  // What is false is not told: nothing is unknown for want of a station.
  expect(conditions.filter(({ truth }) => truth === 'unknown').map(({ code }) => code)).toEqual([]);
  expect(await demo.told('wind-unmeasured')).toEqual([]);
});

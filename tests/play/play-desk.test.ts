import { describe, expect, it } from 'vitest';
import { createPlayDesk } from '#play/create-play-desk.ts';
import { invented } from './invented-play.ts';

describe('shifts for the pages', () => {
  it('are played one at a time: whoever wants another one meanwhile is told to try again', async () => {
    const under = Promise.withResolvers<void>();
    const played: number[] = [];
    const desk = createPlayDesk(async (seed) => {
      played.push(seed);
      await under.promise;
      return invented(seed);
    });
    const [first, same] = [desk.play(1), desk.play(1)];
    await expect(desk.play(2)).rejects.toMatchObject({ code: 'overloaded' });
    under.resolve();
    expect([(await first).seed, (await same).seed, played]).toEqual([1, 1, [1]]);
    expect((await desk.play(2)).seed).toBe(2);
  });

  it('are remembered, the newest eight', async () => {
    const played: number[] = [];
    const desk = createPlayDesk((seed) => {
      played.push(seed);
      return Promise.resolve(invented(seed));
    });
    for (let seed = 1; seed <= 9; seed += 1) await desk.play(seed);
    expect([desk.played(1), desk.played(2)?.seed]).toEqual([null, 2]);
    await desk.play(9);
    expect(played).toHaveLength(9);
  });

  it('a fault is told, forgotten, and the next one is played', async () => {
    let fails = true;
    const desk = createPlayDesk((seed) =>
      fails ? Promise.reject(new Error('no')) : Promise.resolve(invented(seed)),
    );
    await expect(desk.play(1)).rejects.toThrow('no');
    fails = false;
    expect((await desk.play(1)).seed).toBe(1);
  });
});

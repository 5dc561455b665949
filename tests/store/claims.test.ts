// Who may do a piece of work.

import { expect, it } from 'vitest';
import { cellOf } from '../builders/store.ts';
import { NOON_MS, onEachStore } from './on-each-store.ts';

const claimOf = (worker: string, change: object = {}) => ({
  work: 'pull BMX 59,84',
  cycle: 7,
  worker,
  nowMs: NOON_MS,
  deadAfterMs: 60_000,
  ...change,
});

onEachStore('a claim', ({ open }) => {
  it('is for the first who asks, and for nobody else until it is done', async () => {
    const { forecasts, commit } = await open();
    expect(await forecasts.claim(claimOf('w1'))).toBe('ours');
    expect(await forecasts.claim(claimOf('w2'))).toBe('taken');
    expect(await forecasts.claim(claimOf('w2', { work: 'pull BMX 1,1' }))).toBe('ours');
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' }] });
    expect(await forecasts.claim(claimOf('w2'))).toBe('done');
    expect(await forecasts.claim(claimOf('w2', { nowMs: NOON_MS + 1e9 }))).toBe('done');
  });

  it('of a later turn waits until the earlier one of the same work has ended, one way or the other', async () => {
    const { forecasts, commit } = await open();
    const later = () => forecasts.claim(claimOf('w2', { cycle: 8 }));
    await forecasts.claim(claimOf('w1'));
    expect(await later()).toBe('taken');
    await forecasts.release({ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' });
    expect(await later()).toBe('ours');
    expect(await forecasts.claim(claimOf('w1'))).toBe('taken');
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 8, worker: 'w2' }] });
    expect(await forecasts.claim(claimOf('w1'))).toBe('ours');
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' }] });
    expect(await forecasts.claim(claimOf('w3', { cycle: 9 }))).toBe('ours');
  });

  it('whose owner woke up late finishes nothing, although it was a later turn that took its place', async () => {
    const { forecasts, commit } = await open();
    await forecasts.claim(claimOf('w1'));
    const wokenMs = NOON_MS + 60_000;
    expect(await forecasts.claim(claimOf('w2', { cycle: 8, nowMs: wokenMs }))).toBe('ours');
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 8, worker: 'w2' }] });
    const late = { cells: [cellOf('BMX 59,84')], done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' }] };
    await expect(commit(late)).rejects.toMatchObject({ code: 'claim_lost' });
    expect(await forecasts.cells()).toEqual([]);
  });

  it('is renewed by its owner, and then lives on for its whole time again', async () => {
    const { forecasts } = await open();
    const at = (worker: string, afterMs: number) =>
      forecasts.claim(claimOf(worker, { nowMs: NOON_MS + afterMs }));
    expect(await at('w1', 0)).toBe('ours');
    expect(await at('w1', 50_000)).toBe('ours');
    expect(await at('w2', 100_000)).toBe('taken');
    expect(await at('w2', 110_000)).toBe('ours');
    expect(await at('w1', 120_000)).toBe('taken');
  });

  it('goes to the next after its time, and the first can then no longer finish it', async () => {
    const { forecasts, commit } = await open();
    await forecasts.claim(claimOf('w1'));
    expect(await forecasts.claim(claimOf('w2', { nowMs: NOON_MS + 59_999 }))).toBe('taken');
    expect(await forecasts.claim(claimOf('w2', { nowMs: NOON_MS + 60_000 }))).toBe('ours');
    expect(await forecasts.claim(claimOf('w3', { nowMs: NOON_MS + 60_001 }))).toBe('taken');
    const late = { cells: [cellOf('BMX 59,84')], done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' }] };
    await expect(commit(late)).rejects.toMatchObject({ code: 'claim_lost' });
    expect(await forecasts.cells()).toEqual([]);
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w2' }] });
    await expect(
      commit({ done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w2' }] }),
    ).rejects.toMatchObject({
      code: 'claim_lost',
    });
  });

  it('dated more than a minute ahead is not waited for', async () => {
    const { forecasts } = await open();
    await forecasts.claim(claimOf('w1', { nowMs: NOON_MS + 60_000 }));
    expect(await forecasts.claim(claimOf('w2'))).toBe('taken');
    expect(await forecasts.claim(claimOf('w2', { nowMs: NOON_MS - 1 }))).toBe('ours');
  });

  it('that was let go can be taken at once; one that is not ours cannot be let go', async () => {
    const { forecasts, commit } = await open();
    await forecasts.claim(claimOf('w1'));
    await forecasts.release({ work: 'pull BMX 59,84', cycle: 7, worker: 'w2' });
    expect(await forecasts.claim(claimOf('w2'))).toBe('taken');
    await forecasts.release({ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' });
    expect(await forecasts.claim(claimOf('w2'))).toBe('ours');
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w2' }] });
    await forecasts.release({ work: 'pull BMX 59,84', cycle: 7, worker: 'w2' });
    expect(await forecasts.claim(claimOf('w1'))).toBe('done');
  });

  it('that was done under a clock that ran ahead is forgotten when it has been set right', async () => {
    const { forecasts, commit } = await open();
    const turn = (cycle: number, nowMs: number) => claimOf('w1', { cycle, nowMs });
    const done = async (cycle: number, nowMs: number): Promise<void> => {
      expect(await forecasts.claim(turn(cycle, nowMs))).toBe('ours');
      await commit({ done: [{ work: 'pull BMX 59,84', cycle, worker: 'w1' }] });
    };
    await done(7, NOON_MS);
    await done(8, NOON_MS + 60_000);
    await done(9, NOON_MS + 3_600_000);
    await forecasts.forgetAhead(NOON_MS);
    const later = NOON_MS + 3_600_000;
    expect(await forecasts.claim(turn(7, later))).toBe('done');
    expect(await forecasts.claim(turn(8, later))).toBe('done');
    expect(await forecasts.claim(turn(9, later))).toBe('ours');
  });
});

// Who may do a piece of work.

import { expect, it } from 'vitest';
import { cellOf } from '../builders/store.ts';
import { ageClaims, changeClaims } from './age-claims.ts';
import { onEachStore, onPostgres, type Stores } from './on-each-store.ts';

const claimOf = (worker: string, change: object = {}) => ({
  work: 'pull BMX 59,84',
  cycle: 7,
  worker,
  deadAfterMs: 60_000,
  ...change,
});

/** A store in which time can be made to go by. */
async function timed({ open, address }: Stores) {
  const where = await address();
  const store = await open(where);
  return {
    ...store,
    pass: (ms: number) => ageClaims(where, ms),
    change: (s: string) => changeClaims(where, s),
  };
}

onEachStore('a claim', (stores) => {
  const { open } = stores;
  it('is for the first who asks, and for nobody else until it is done', async () => {
    const { forecasts, commit, pass } = await timed(stores);
    expect(await forecasts.claim(claimOf('w1'))).toBe('ours');
    expect(await forecasts.claim(claimOf('w2'))).toBe('taken');
    expect(await forecasts.claim(claimOf('w2', { work: 'pull BMX 1,1' }))).toBe('ours');
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' }] });
    expect(await forecasts.claim(claimOf('w2'))).toBe('done');
    await pass(1e9);
    expect(await forecasts.claim(claimOf('w2'))).toBe('done');
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
    const { forecasts, commit, pass } = await timed(stores);
    await forecasts.claim(claimOf('w1'));
    await pass(60_000);
    expect(await forecasts.claim(claimOf('w2', { cycle: 8 }))).toBe('ours');
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: 8, worker: 'w2' }] });
    const late = { cells: [cellOf('BMX 59,84')], done: [{ work: 'pull BMX 59,84', cycle: 7, worker: 'w1' }] };
    await expect(commit(late)).rejects.toMatchObject({ code: 'claim_lost' });
    expect(await forecasts.cells()).toEqual([]);
  });

  it('is renewed by its owner, and then lives on for its whole time again', async () => {
    const { forecasts, pass } = await timed(stores);
    const after = async (ms: number, worker: string) => {
      await pass(ms);
      return await forecasts.claim(claimOf(worker));
    };
    expect(await after(0, 'w1')).toBe('ours');
    expect(await after(40_000, 'w1')).toBe('ours');
    expect(await after(40_000, 'w2')).toBe('taken');
    expect(await after(20_000, 'w2')).toBe('ours');
    expect(await after(10_000, 'w1')).toBe('taken');
  });

  it('goes to the next after its time, and the first can then no longer finish it', async () => {
    const { forecasts, commit, pass } = await timed(stores);
    await forecasts.claim(claimOf('w1'));
    await pass(40_000);
    expect(await forecasts.claim(claimOf('w2'))).toBe('taken');
    await pass(20_000);
    expect(await forecasts.claim(claimOf('w2'))).toBe('ours');
    expect(await forecasts.claim(claimOf('w3'))).toBe('taken');
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

  it('that is done tells when, whatever else was claimed, let go of or is under way', async () => {
    const { forecasts, commit } = await open();
    const work = 'pull BMX 59,84';
    expect(await forecasts.lastDoneMs(work)).toBe(null);
    await forecasts.claim(claimOf('w1'));
    expect(await forecasts.lastDoneMs(work)).toBe(null);
    await commit({ done: [{ work, cycle: 7, worker: 'w1' }] });
    const doneMs = await forecasts.lastDoneMs(work);
    // By the clock of whoever did it, which these tests set.
    expect(doneMs).toBe(Date.parse('2026-03-02T12:00:00Z'));
    await forecasts.claim(claimOf('w1', { cycle: 8 }));
    await forecasts.release({ work, cycle: 8, worker: 'w1' });
    expect(await forecasts.lastDoneMs(work)).toBe(doneMs);
    expect(await forecasts.lastDoneMs('watch')).toBe(null);
  });

  it('dated more than a minute ahead is not waited for', async () => {
    const { forecasts, pass } = await timed(stores);
    await forecasts.claim(claimOf('w1'));
    await pass(-40_000);
    expect(await forecasts.claim(claimOf('w2'))).toBe('taken');
    await pass(-40_000);
    expect(await forecasts.claim(claimOf('w2'))).toBe('ours');
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

  it('of a turn done before it had begun is forgotten when the clock has been set right', async () => {
    const { forecasts, commit } = await open();
    const nowMs = Date.now();
    const cycles = [nowMs - 60_000, nowMs + 30_000, nowMs + 3_600_000].map((ms) => Math.floor(ms / 1000));
    // One by hand, which has a number and no moment.
    cycles.push(nowMs * 1000 + 1);
    for (const cycle of cycles) {
      expect(await forecasts.claim(claimOf('w1', { cycle }))).toBe('ours');
      await commit({ done: [{ work: 'pull BMX 59,84', cycle, worker: 'w1' }] });
    }
    await forecasts.forgetAhead(nowMs);
    const said = [];
    for (const cycle of cycles) said.push(await forecasts.claim(claimOf('w1', { cycle })));
    expect(said).toEqual(['done', 'done', 'ours', 'done']);
  });
});

onPostgres('claims of processes whose clocks differ', ({ open }) => {
  it('a late clock forgets nothing that others have done or are at', async () => {
    const { forecasts, commit } = await open();
    const cycle = Math.floor(Date.now() / 1000);
    await forecasts.claim(claimOf('w1', { cycle: cycle - 60 }));
    await commit({ done: [{ work: 'pull BMX 59,84', cycle: cycle - 60, worker: 'w1' }] });
    await forecasts.claim(claimOf('w1', { cycle }));
    await forecasts.forgetAhead(Date.now() - 5 * 3_600_000);
    expect(await forecasts.claim(claimOf('w2', { cycle: cycle - 60 }))).toBe('done');
    expect(await forecasts.claim(claimOf('w2', { cycle }))).toBe('taken');
  });
});

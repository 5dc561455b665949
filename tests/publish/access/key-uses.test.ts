import { describe, expect, it } from 'vitest';
import { createKeyUses } from '#publish/access/key-uses.ts';

function kept(write: (lastUsed: ReadonlyMap<string, number>) => Promise<void> = () => Promise.resolve()) {
  const written: Record<string, number>[] = [];
  const faults: unknown[] = [];
  const waiting: (() => void)[] = [];
  const uses = createKeyUses({
    write: async (lastUsed) => {
      await write(lastUsed);
      written.push(Object.fromEntries(lastUsed));
    },
    later: (afterMs, run) => {
      expect(afterMs).toBe(60_000);
      waiting.push(run);
    },
    failed: (fault) => faults.push(fault),
  });
  const aMinutePasses = async () => {
    for (const run of waiting.splice(0)) run();
    await Promise.resolve();
    await Promise.resolve();
  };
  return { uses, written, faults, aMinutePasses };
}

describe('the last use of keys', () => {
  it('is written at once, and from then on once a minute, the newest of each', async () => {
    const { uses, written, aMinutePasses } = kept();
    uses.note('aaaaaaaa', 1);
    await Promise.resolve();
    await Promise.resolve();
    expect(written).toEqual([{ aaaaaaaa: 1 }]);
    for (let i = 2; i < 1000; i += 1) uses.note(i % 2 ? 'aaaaaaaa' : 'bbbbbbbb', i);
    expect(written).toHaveLength(1);
    await aMinutePasses();
    expect(written).toEqual([{ aaaaaaaa: 1 }, { aaaaaaaa: 999, bbbbbbbb: 998 }]);
    await aMinutePasses();
    expect(written).toHaveLength(2);
    uses.note('aaaaaaaa', 2000);
    await uses.flush();
    expect(written.at(-1)).toEqual({ aaaaaaaa: 2000 });
  });

  it('is not lost where it could not be written', async () => {
    let broken = true;
    const { uses, written, faults, aMinutePasses } = kept(() =>
      broken ? Promise.reject(new Error('full')) : Promise.resolve(),
    );
    uses.note('aaaaaaaa', 1);
    await Promise.resolve();
    uses.note('bbbbbbbb', 2);
    await aMinutePasses();
    broken = false;
    await uses.flush();
    expect(faults.length).toBeGreaterThan(0);
    expect(Object.assign({}, ...written)).toEqual({ aaaaaaaa: 1, bbbbbbbb: 2 });
  });

  it('is written in the end, and then nothing more', async () => {
    const { uses, written } = kept();
    uses.note('aaaaaaaa', 1);
    uses.note('aaaaaaaa', 5);
    await uses.flush();
    await uses.flush();
    expect(written).toEqual([{ aaaaaaaa: 1 }, { aaaaaaaa: 5 }]);
  });
});

// Row 2: killed between any two steps, every text still goes out, and none a second time but the one that was just sent
// when nobody could note it (alertmanager#2370, grafana/alerting#156).

import { describe, expect, it } from 'vitest';
import { EIGHT_MS, gust, SITE } from '../builders/notices.ts';
import { onEachStore } from './on-each-store.ts';
import { cycle, SEAMS } from './watch-cycle.ts';

const SECOND_MS = 1000;

/** `contact kinds` of what the channel was given, each with how many times. */
function told(channel: readonly string[]): Record<string, number> {
  const byId = Map.groupBy(channel, (line) => line);
  const counts: Record<string, number> = {};
  for (const [line, same] of byId) {
    const what = line.split(' ').slice(0, 2).join(' ');
    // Another delivery of the same would be a second text.
    expect(counts[what], line).toBeUndefined();
    counts[what] = same.length;
  }
  return counts;
}

onEachStore('a process that is killed', ({ open, address }) => {
  it.each(SEAMS)(
    'after "%s" loses no text, and repeats none but one that it could not note',
    async (seam) => {
      const where = await address();
      const channel: string[] = [];
      for (let round = 0; round < 4; round += 1) {
        const own = await open(where);
        const conditions = [gust('true', 'stop')];
        const nowMs = EIGHT_MS + round * 10 * SECOND_MS;
        await cycle({ store: own, nowMs, conditions, killedAt: round === 0 ? seam : null, channel });
        await own.close();
      }
      expect(told(channel)).toEqual({ 'ana raised': seam === 'sent' ? 2 : 1 });
      // Then it is over: told to the one who was told of it, however often the process is killed on the way.
      for (const [i, killedAt] of [null, null, null, seam, null, null].entries()) {
        const own = await open(where);
        const conditions = [gust('false', 'stop', { clearsForMs: 30 * SECOND_MS })];
        const nowMs = EIGHT_MS + 60 * SECOND_MS + i * 10 * SECOND_MS;
        await cycle({ store: own, nowMs, conditions, killedAt, channel });
        await own.close();
      }
      expect(told(channel)).toEqual({
        'ana raised': seam === 'sent' ? 2 : 1,
        'ana over': seam === 'sent' ? 2 : 1,
      });
    },
  );

  describe('row 23: whoever missed the end', () => {
    it('reads what is in force, and every message says until when it is good (proto-fleet#593)', async () => {
      const where = await address();
      const store = await open(where);
      await cycle({
        store,
        nowMs: EIGHT_MS,
        conditions: [gust('true', 'stop')],
        killedAt: null,
        channel: [],
      });
      expect((await store.watch.standing([SITE])).map((n) => n.told)).toEqual(['stop']);
      const [thread] = await store.watch.openThreads(9);
      expect(thread?.message.validUntilMs).toBeGreaterThan(EIGHT_MS);
      for (const second of [1, 2, 3]) {
        const conditions = [gust('false', 'stop', { clearsForMs: SECOND_MS })];
        await cycle({ store, nowMs: EIGHT_MS + second * SECOND_MS, conditions, killedAt: null, channel: [] });
      }
      expect(await store.watch.standing([SITE])).toEqual([]);
    });
  });
});

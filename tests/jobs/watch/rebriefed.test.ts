import { describe, expect, it } from 'vitest';
import { rebriefedAtMs } from '#jobs/watch/rebriefed.ts';
import { conditionOf, EIGHT_MS } from '../../builders/notices.ts';

const notice = (code: Parameters<typeof conditionOf>[0], acknowledgedAtMs: number | null) => ({
  condition: conditionOf(code, 'true'),
  acknowledgedAtMs,
});

describe('the crew is briefed on a wind that turned', () => {
  it('by the newest answer to a turn of the wind, and to nothing else', () => {
    expect(rebriefedAtMs([])).toBeNull();
    expect(rebriefedAtMs([notice('wind-shifted', null), notice('thunder-near', EIGHT_MS)])).toBeNull();
    expect(rebriefedAtMs([notice('wind-shifted', EIGHT_MS), notice('plan-worse', EIGHT_MS + 9)])).toBe(
      EIGHT_MS,
    );
  });
});

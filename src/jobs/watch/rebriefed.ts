// When the crew was briefed on a wind that turned: a turn that somebody has acknowledged is the wind gone by since.

import type { Notice } from '#core/notices/notice.ts';

/** Null where nobody has acknowledged any. */
export function rebriefedAtMs(
  notices: readonly Pick<Notice, 'condition' | 'acknowledgedAtMs'>[],
): number | null {
  const answered = notices.flatMap(({ condition, acknowledgedAtMs }) =>
    condition.code === 'wind-shifted' && acknowledgedAtMs !== null ? [acknowledgedAtMs] : [],
  );
  return answered.length === 0 ? null : Math.max(...answered);
}

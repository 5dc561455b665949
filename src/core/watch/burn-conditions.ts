// What is judged of each open burn: another one lit at the site relieves nobody of covering the first.

import type { Burn } from './burn.ts';
import { burnDate, isOpen } from './burn-plan.ts';
import { burnSubjects } from './burn-subjects.ts';
import { chargeConditions } from './charge-conditions.ts';
import type { Condition } from './condition.ts';
import { coverConditions } from './cover-conditions.ts';
import { type PitLit, pitLit, wasLit } from './pit-lit.ts';
import type { OpenBurn, WatchContext } from './watch-context.ts';

/** The light-up, the charges and the cover of every open burn; `beside`: what else is judged of the site at this look. */
export function burnConditions(context: WatchContext, beside: readonly Condition[]): Condition[] {
  const { alsoOpen, before, burn, litBy } = context;
  const open: readonly OpenBurn[] = isOpen(burn) ? [{ burn, litBy }, ...alsoOpen] : alsoOpen;
  const subjects = burnSubjects(
    open.map((one) => one.burn),
    before,
  );
  return open.flatMap((one) => {
    const subject = subjects.get(one.burn.id) ?? '';
    const own = { ...context, ...one, before: before.filter((c) => c.subject === subject) };
    const ofBurn = { ...own, date: burnDate(own) };
    const conditions = [...chargeConditions(ofBurn, one.burn, beside), ...coverConditions(ofBurn, one.burn)];
    const pit = pitOf(one.burn, subject, { ...own, open });
    return conditions.map((c) => ({ ...c, subject, figures: { ...c.figures, pit } }));
  });
}

/** Named beside another one, and from then on to its end: who was told of two must not have to guess which is left. */
function pitOf(
  burn: Burn,
  subject: string,
  {
    open,
    covered,
    before,
  }: Pick<WatchContext, 'covered' | 'before'> & { readonly open: readonly OpenBurn[] },
): PitLit | null {
  const pit = pitLit(burn, [...open.map((one) => one.burn), ...covered.filter(wasLit)]);
  const wasNamed = before.some(({ figures }) => figures.pit?.litAtMs === pit.litAtMs);
  return open.length > 1 || subject !== '' || wasNamed ? pit : null;
}

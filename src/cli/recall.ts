// pitward recall: what the plan of a site said at a moment that is past, made again from the store.

import { loadConfig } from '#config/load.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { ServiceError } from '#errors.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { theDay } from '#publish/api/site-answers.ts';
import { liveSource } from '#service/live-source.ts';
import { keptAnswerHash } from '#service/planner.ts';
import { rebuildPlan } from '#service/rebuild.ts';
import type { Store } from '#store/store.ts';
import { type Arguments, usage } from './arguments.ts';
import { configFileOf } from './config-file.ts';
import { openKept } from './kept.ts';
import { planText } from './print.ts';
import { momentOf, readerOf } from './settings.ts';
import { EXIT, logTo, type Terminal } from './terminal.ts';

export async function recall(args: Arguments, terminal: Terminal): Promise<number> {
  const [id, ...more] = args.words;
  if (id === undefined || more.length > 0)
    throw usage('expected one site: pitward recall north-block --now INSTANT');
  const nowMs = momentOf(args.options.now) ?? terminal.nowMs();
  const config = loadConfig(configFileOf(args, terminal));
  const { store } = await openKept(args, config, terminal, { shared: true, asFound: true });
  const source = liveSource({
    config,
    nowMs: terminal.nowMs,
    log: logTo(terminal),
    sleep: terminal.sleep,
    ownSource: false,
  });
  try {
    const { plan, kept } = await rebuilt(store, source.grid, `${config.organisation}/${id}`, nowMs);
    const day = plan.days.find(({ day: d }) => d.date === args.options.day) ?? theDay(plan);
    const { timeZone } = plan.site;
    const wanted = readerOf(args, config, timeZone, day.day.date, false);
    const answer = dayPlanAnswer(plan, day, { ...wanted, madeFrom: kept.basis });
    terminal.err(
      `Plan of ${rfc3339(kept.madeAtMs, timeZone)}, made again from what was kept; the same bytes.`,
    );
    const colour = terminal.colour && !args.options['no-color'];
    terminal.out(args.options.json ? JSON.stringify(answer, null, 2) : planText(answer, { colour }));
    return EXIT.done;
  } finally {
    await source.close();
    await store.close();
  }
}

async function rebuilt(store: Store, reader: Parameters<typeof rebuildPlan>[1], site: string, nowMs: number) {
  const kept = await store.plans.at(site, nowMs);
  if (kept === null) throw new ServiceError('not_kept', `no plan of ${site} from before that moment is kept`);
  const { basis, madeAtMs, firstDate, dayCount } = kept;
  const plan = await rebuildPlan(store.documents, reader, { basis, nowMs: madeAtMs, firstDate, dayCount });
  // A newer program may judge otherwise; then this is not what was said.
  if (keptAnswerHash(plan, basis) !== kept.answerHash) {
    throw new ServiceError(
      'not_kept',
      `the plan of ${site} was made by version ${kept.program} and comes out otherwise now`,
    );
  }
  return { plan, kept };
}

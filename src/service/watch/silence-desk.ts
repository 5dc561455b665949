// Silences: made for what stands, ended at any time, never longer than four hours.

import { randomUUID } from 'node:crypto';
import { type Silence, silenceFaults } from '#core/notices/silence.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { ConditionCode } from '#core/watch/condition.ts';
import { messageOf, ServiceError } from '#errors.ts';
import { escalateSite } from '#jobs/watch/escalate-open.ts';
import { watchSite } from '#jobs/watch/watch-site.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import { organisationOf } from '#memory/definition-book.ts';
import { maySee, type Viewer } from '#publish/viewer.ts';
import type { WatchDesk } from '#publish/watch-desk.ts';

export function silenceDesk(deps: WatchDeps): Pick<WatchDesk, 'silences' | 'silence' | 'endSilence'> {
  const { store, nowMs } = deps;
  const keysOf = (viewer: Viewer): string[] => [...deps.siteKeys()].filter((key) => mayKnow(viewer, key));
  const silences = (viewer: Viewer): Promise<Silence[]> => store.watch.silences(keysOf(viewer), nowMs());
  return {
    silences,
    async silence(siteKey, { code, minutes, reason, by, role, key }) {
      const fromMs = nowMs();
      const silence: Silence = {
        id:
          key === null ? randomUUID() : deps.hash(JSON.stringify(['silence', organisationOf(siteKey), key])),
        site: siteKey,
        code: code as ConditionCode | null,
        fromMs,
        untilMs: fromMs + minutes * MINUTE_MS,
        reason,
        by,
        role,
        endedAtMs: null,
        endedBy: null,
      };
      const known = key === null ? null : await store.watch.silence(silence.id);
      if (known !== null && !isSame(known, silence)) {
        throw new ServiceError('key_reused', 'this idempotency key came before with another silence');
      }
      if (known !== null) return { silence: known, already: true };
      const faults = silenceFaults(silence, await store.watch.standing([siteKey]));
      if (faults.length > 0) {
        throw new ServiceError('bad_body', `a silence that cannot be: ${faults.join(', ')}`, {
          facts: { faults: faults.map((message) => ({ path: '(body)', message })) },
        });
      }
      await store.watch.commit([{ site: siteKey, replaces: null, silences: [silence] }]);
      return { silence, already: false };
    },
    async endSilence(viewer, id, by) {
      const found = (await silences(viewer)).find((silence) => silence.id === id);
      if (!found) throw new ServiceError('not_found', `no silence "${id}"`);
      const ended = { ...found, endedAtMs: nowMs(), endedBy: by };
      await store.watch.commit([{ site: found.site, replaces: null, silences: [ended] }]);
      // It is ended, whatever comes of this: who was not asked because of it is asked now, or at the next look.
      await tellsNow(deps, found.site).catch((fault: unknown) => {
        deps.log.warn({ site: found.site, message: messageOf(fault) }, 'not looked at after a silence');
      });
      deps.wake();
      return ended;
    },
  };
}

async function tellsNow(deps: WatchDeps, site: string): Promise<void> {
  await deps.store.watch.releaseHeld([site], deps.nowMs());
  await watchSite(deps, site);
  await escalateSite(deps, site);
}

const isSame = (a: Silence, b: Silence): boolean =>
  a.site === b.site &&
  a.code === b.code &&
  a.reason === b.reason &&
  a.untilMs - a.fromMs === b.untilMs - b.fromMs;

export const mayKnow = (viewer: Viewer, siteKey: string): boolean =>
  organisationOf(siteKey) === viewer.organisation && maySee(viewer, siteKey.slice(siteKey.indexOf('/') + 1));

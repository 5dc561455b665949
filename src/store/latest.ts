// The newest forecast of each site, in memory: what was pulled, when it was last confirmed, and what went wrong last.

import type { Forecast } from '#core/series/forecast.ts';
import type { AlertsSeen } from '#core/series/official-alert.ts';

export interface HeldForecast {
  readonly forecast: Forecast;
  readonly alerts: AlertsSeen;
  /** The forecast point's own zone. */
  readonly pointTimeZone: string;
}

export interface PullFault {
  readonly code: string;
  readonly message: string;
  readonly atMs: number;
}

export interface SiteState {
  readonly held: HeldForecast | null;
  /** When the source last confirmed what is held. */
  readonly checkedAtMs: number | null;
  /** Set by a failed pull, cleared by the next good one. */
  readonly fault: PullFault | null;
  /** Rises when what is held changes in content; the same content pulled again leaves it. */
  readonly version: number;
}

export interface LatestForecasts {
  get(siteId: string): SiteState;
  put(siteId: string, held: HeldForecast, nowMs: number): void;
  /** Newer alerts beside the forecast that is held; nothing where none is held. */
  putAlerts(siteId: string, alerts: AlertsSeen): void;
  fail(siteId: string, fault: PullFault): void;
}

const NOTHING: SiteState = { held: null, checkedAtMs: null, fault: null, version: 0 };

export function createLatestForecasts(): LatestForecasts {
  const states = new Map<string, SiteState>();
  const get = (siteId: string): SiteState => states.get(siteId) ?? NOTHING;
  return {
    get,
    put(siteId, held, nowMs) {
      const before = get(siteId);
      const version = before.held && sameContent(before.held, held) ? before.version : before.version + 1;
      states.set(siteId, { held, checkedAtMs: nowMs, fault: null, version });
    },
    putAlerts(siteId, alerts) {
      const before = get(siteId);
      if (before.held === null) return;
      const held = { ...before.held, alerts };
      const version = sameContent(before.held, held) ? before.version : before.version + 1;
      states.set(siteId, { ...before, held, version });
    },
    fail(siteId, fault) {
      states.set(siteId, { ...get(siteId), fault });
    },
  };
}

/** True where nothing but the time of reading differs. */
function sameContent(a: HeldForecast, b: HeldForecast): boolean {
  return (
    a.forecast.documentId === b.forecast.documentId &&
    a.pointTimeZone === b.pointTimeZone &&
    a.alerts.complete === b.alerts.complete &&
    JSON.stringify(a.alerts.alerts) === JSON.stringify(b.alerts.alerts)
  );
}

// Newer alerts beside the forecast that is held.

import { describe, expect, it } from 'vitest';
import { createLatestForecasts } from '#store/latest.ts';
import { alertOf, alertsSeen } from '../builders/alerts.ts';
import { FAIR, forecastOf, seriesOf } from '../builders/forecast.ts';

const fault = { code: 'source_unreachable', message: 'no answer', atMs: 150 };
const warning = alertOf('Red Flag Warning', 0, 1_000);

function holding() {
  const latest = createLatestForecasts();
  const forecast = forecastOf(seriesOf(0, 6, FAIR), 0);
  latest.put('a', { forecast, alerts: alertsSeen(100), pointTimeZone: 'America/Los_Angeles' }, 100);
  latest.fail('a', fault);
  return { latest, before: latest.get('a') };
}

describe('newer alerts', () => {
  it('raise the version where they say something else; the check and the fault stay', () => {
    const { latest, before } = holding();
    latest.putAlerts('a', alertsSeen(200, [warning]));
    const after = latest.get('a');
    expect(after.version).toBe(before.version + 1);
    expect(after.held?.alerts).toEqual(alertsSeen(200, [warning]));
    expect(after).toMatchObject({ checkedAtMs: 100, fault });
    expect(after.held?.forecast).toBe(before.held?.forecast);
  });

  it('that say the same only tell that they were read', () => {
    const { latest, before } = holding();
    latest.putAlerts('a', alertsSeen(200));
    expect(latest.get('a').version).toBe(before.version);
    expect(latest.get('a').held?.alerts.fetchedAtMs).toBe(200);
  });

  it('that are no longer whole raise the version', () => {
    const { latest, before } = holding();
    latest.putAlerts('a', { ...alertsSeen(200), complete: false });
    expect(latest.get('a').version).toBe(before.version + 1);
  });

  it('are nothing where no forecast is held', () => {
    const { latest } = holding();
    latest.putAlerts('b', alertsSeen(200, [warning]));
    expect(latest.get('b')).toMatchObject({ held: null, version: 0 });
  });
});

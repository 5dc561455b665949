// Readings of hand-held meters as a form sends them. A person is there to be asked: what has a fault is not kept in part.

import { ServiceError } from '#errors.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import type { FormFault, WatchDesk } from '#publish/watch-desk.ts';
import { FORM_FIELDS, type Form, readForm } from '#sources/stations/posted-form.ts';
import { postedObservation } from '#sources/stations/posted-observation.ts';
import { keepObservations } from './observation-desk.ts';
import type { StationShelf } from './station-shelf.ts';

export interface ReadingFormDeps extends WatchDeps {
  readonly stations: Pick<StationShelf, 'configured'>;
}

export function readingFormDesk({
  stations,
  ...deps
}: ReadingFormDeps): Pick<WatchDesk, 'meters' | 'observeForm'> {
  const byHand = (siteKey: string) =>
    stations
      .configured(siteKey)
      .filter(({ station, source }) => source.kind === 'posted' && station.kind === 'person');
  return {
    meters: (siteKey) =>
      byHand(siteKey).map(({ station: { id, name }, directions: { reference, declinationDeg } }) => {
        return { id, name, reference, takesMagnetic: declinationDeg !== null };
      }),
    async observeForm(siteKey, typed) {
      const timeZone = deps.view(siteKey)?.site.timeZone ?? null;
      if (timeZone === null) {
        throw new ServiceError('no_forecast', 'nothing is known of this site yet', { retryable: true });
      }
      const nowMs = deps.nowMs();
      const { reading, faults } = readForm(formOf(typed), { timeZone, nowMs });
      const named = byHand(siteKey);
      const read = postedObservation(reading, {
        stationNamed: (id) => named.find(({ station }) => station.id === id) ?? null,
        receivedAtMs: nowMs,
      });
      const all = eachOnce([...faults, ...read.faults]);
      if (all.length > 0 || read.observation === null) return all;
      const taken = await keepObservations(deps, siteKey, [read.observation]);
      return taken.get(read.observation) === 'too-old' ? [{ field: 'time', why: 'too-old' }] : [];
    },
  };
}

const formOf = (typed: Readonly<Record<string, string>>): Form => {
  const fields = [...FORM_FIELDS, 'blows', 'speedUnit'].flatMap((field) =>
    typed[field] === undefined ? [] : [[field, typed[field]] as const],
  );
  return Object.fromEntries(fields) as Form;
};

/** The first of each field: what follows from a field that cannot be read is no fault of its own. */
function eachOnce(faults: readonly FormFault[]): FormFault[] {
  const first = new Map<string, FormFault>();
  for (const { field: told, why } of faults) {
    const field = why === 'no-declination' ? 'reference' : told;
    if (!first.has(field)) first.set(field, { field, why });
  }
  const all = [...first.values()];
  return all.length > 1 ? all.filter(({ field }) => field !== '(reading)') : all;
}

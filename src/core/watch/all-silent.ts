// Whether everybody who may speak for a site has gone silent, by what each told last: where nothing burns nobody looks by the
// minute, and the clock alone makes a station silent.

import { outOfReach } from './choose-station.ts';
import type { Condition } from './condition.ts';
import type { Station } from './station.ts';
import { freshForMs } from './station-health.ts';
import type { WatchSettings } from './watch-settings.ts';

/** `before`: the conditions of the last look, which every observation brings. False where nobody is to speak at all. */
export function allSilent(
  stations: readonly Station[],
  before: readonly Condition[],
  settings: WatchSettings,
  nowMs: number,
): boolean {
  const toldOf = (station: Station) =>
    before.find(({ code, subject }) => code === 'station-silent' && subject === station.id);
  // That a meter is not read may have been accepted.
  const isToSpeak = (station: Station): boolean =>
    station.kind !== 'person' ||
    settings.unobserved !== 'accepted' ||
    (toldOf(station)?.asOfMs ?? null) !== null;
  const inReach = stations.filter((station) => outOfReach(station, settings) === null && isToSpeak(station));
  const isSilent = (station: Station): boolean => {
    const told = toldOf(station);
    return !(nowMs - (told?.asOfMs ?? Number.NEGATIVE_INFINITY) <= freshForMs(station, settings));
  };
  return inReach.length > 0 && inReach.every(isSilent);
}

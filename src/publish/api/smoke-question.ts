// What was typed on the board about a smoke → a place, a moment and the answer; or what is wrong with it.

import type { ProtectedPlace } from '#core/site/site.ts';
import { wrapDeg } from '#core/units/direction.ts';
import { clockTimeMs, isLocalDate, localDateAt, parseTypedInstantMs } from '#core/units/local-time.ts';
import { type Position, parsePosition, placeToward } from '#core/units/position.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { PlaceChoice, SmokeQuestion } from '#publish/page/board/board-view.ts';
import type { SmokeDesk } from '#publish/smoke-desk.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { Reader } from '#publish/wording/words.ts';
import { nearestTo, searchSmoke } from './smoke-search.ts';
import { zoneOf } from './watch-period.ts';

export interface SmokeTyped {
  readonly at?: string | undefined;
  readonly place?: string | undefined;
  readonly time?: string | undefined;
}

interface Named {
  readonly value: string;
  readonly name: string;
  readonly label: string;
  readonly position: Position;
}

/** More than this nobody finds in a list; names can be typed all the same. */
const MOST_CHOICES = 200;

export async function smokeQuestion(
  parts: { readonly desk: PlanDesk; readonly watch: SmokeDesk },
  viewer: Viewer,
  typed: SmokeTyped,
  reader: Pick<Reader, 'language' | 'units'>,
): Promise<SmokeQuestion> {
  const sites = parts.desk.sites(viewer);
  const named = namedPlaces(sites);
  const { at = '', place = '', time = '' } = typed;
  const empty = {
    typed: { at, place, time },
    choices:
      named.length > MOST_CHOICES ? [] : named.map(({ value, label }): PlaceChoice => ({ value, label })),
    faults: [],
    answer: null,
    place: null,
  } satisfies SmokeQuestion;
  if (typed.at === undefined && typed.place === undefined && typed.time === undefined) return empty;
  const found = placeOf(at.trim(), place, named);
  if (typeof found === 'string') return { ...empty, faults: [{ field: 'at', why: found }] };
  const nowMs = parts.desk.nowMs();
  const site = nearestTo(found.position, sites)?.site ?? null;
  const atMs = momentOf(time.trim(), site === null ? 'UTC' : zoneOf(site), nowMs);
  if (typeof atMs === 'string') return { ...empty, faults: [{ field: 'time', why: atMs }] };
  const answer = await searchSmoke(parts, viewer, { at: found.position, atMs }, reader);
  return { ...empty, answer, place: found.name };
}

/** What is typed goes before what is chosen. */
function placeOf(
  at: string,
  choice: string,
  named: readonly Named[],
): { readonly position: Position; readonly name: string | null } | 'no-place' | 'unreadable' | 'several' {
  if (at === '')
    return named.find(({ value }) => value === choice) ?? (choice === '' ? 'no-place' : 'unreadable');
  const position = parsePosition(at);
  if (position !== null) return { position, name: null };
  const wanted = plain(at);
  const [first, ...others] = named.filter(({ value, name }) => value === wanted || plain(name) === wanted);
  if (first === undefined) return 'unreadable';
  return others.length === 0 ? first : 'several';
}

const plain = (text: string): string => text.toLowerCase().replaceAll(/\s+/g, ' ').trim();

/** A minute of the future is what a clock that runs ahead shows. */
const AHEAD_MS = 120_000;

/** `2026-04-14T10:05` on the clock of the site, a clock time of its today, or an instant with offset. */
function momentOf(text: string, timeZone: string, nowMs: number): number | 'time' | 'ahead' {
  if (text === '') return nowMs;
  const local = /^(?:(\d{4}-\d\d-\d\d)[T ])?(([01]\d|2[0-3]):[0-5]\d)(?::[0-5]\d)?$/.exec(text);
  const [, date = localDateAt(nowMs, timeZone), clock = ''] = local ?? [];
  if (local && !isLocalDate(date)) return 'time';
  const ms = local ? clockTimeMs(date, clock, timeZone) : parseTypedInstantMs(text);
  if (ms === null) return 'time';
  return ms > nowMs + AHEAD_MS ? 'ahead' : Math.min(ms, nowMs);
}

/** Sites and their protected places, one that is told by a sector in its middle. */
function namedPlaces(sites: readonly DeskSite[]): Named[] {
  return sites.flatMap(({ id, name, at: [latDeg, lonDeg], protected: places }) => {
    const pit = { latDeg, lonDeg };
    const site: Named = { value: id, name, label: name, position: pit };
    const around = places.map(
      (place, i): Named => ({
        value: `${id}|${i}`,
        name: place.name,
        label: `${name}: ${place.name}`,
        position: middleOf(place, pit),
      }),
    );
    return [site, ...around];
  });
}

function middleOf({ fromBearingDeg, toBearingDeg, distanceM }: ProtectedPlace, pit: Position): Position {
  if (Math.abs(toBearingDeg - fromBearingDeg) >= 360) return pit;
  return placeToward(pit, fromBearingDeg + wrapDeg(toBearingDeg - fromBearingDeg) / 2, distanceM);
}

// The day sheet as plain data: every word and figure that stands on it, for the page to print and for the PDF alike. A sheet
// is one side of paper, so that what is many is cut, and says so.

import { HOUR_MS, overlaps, type Span } from '#core/units/time.ts';
import { drawnSpan } from '#publish/page/drawn-span.ts';
import { hourNames } from '#publish/page/hour-names.ts';
import { wordOf } from '#publish/page/mark.ts';
import { momentAt, msOf, zoneName } from '#publish/page/moments.ts';
import { timeOf } from '#publish/page/plan-text.ts';
import { firstReason, shutTimes } from '#publish/page/reasons.ts';
import type { SiteView } from '#publish/page/site-view.ts';
import type { Mark, Standing } from '#publish/page/standing.ts';
import { standingOfView } from '#publish/page/with-live.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import { dateText, distanceText, type Language, pointText } from '#publish/wording/show.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import { type SheetRow, type SmokeHour, sheetRows, smokeRuns } from './sheet-hours.ts';
import { voidOf } from './void-after.ts';

export interface SheetBlock extends Span {
  readonly kind: 'go' | 'hold' | 'stop' | 'shut';
}

export interface Sheet {
  readonly language: Language;
  readonly demo: string | null;
  readonly site: string;
  readonly day: string;
  readonly head: readonly string[];
  readonly mark: Mark;
  readonly word: string;
  /** Why it is no go, or how much room there is. */
  readonly reason: string | null;
  /** The moment after which it is void, and what else ends it. */
  readonly voidAfter: string;
  readonly voidNotes: readonly string[];
  readonly times: readonly (readonly [string, string])[];
  readonly pauses: readonly string[];
  readonly band: {
    readonly span: Span;
    readonly blocks: readonly SheetBlock[];
    /** The times of the burn. */
    readonly marksMs: readonly number[];
    readonly told: string;
  };
  /** Names of the hours, as long as they are apart. */
  readonly hours: readonly { readonly name: string; readonly fromMs: number }[];
  readonly rows: readonly SheetRow[];
  readonly smoke: readonly SmokeHour[];
  readonly places: readonly string[];
  readonly change: readonly string[];
  readonly tailgate: readonly string[];
  readonly where: readonly string[];
  readonly caution: string;
}

/** What the answers do not tell of a site. */
export interface SheetSite {
  /** Degrees north, degrees east. */
  readonly at: readonly [number, number];
  readonly holdAfterMin: number;
  readonly places: readonly {
    readonly name: string;
    readonly fromDeg: number;
    readonly toDeg: number;
    readonly distanceM: number;
  }[];
}

export function sheetOf(view: SiteView, site: SheetSite): Sheet {
  const { plan, reader, windows } = view;
  const { language } = reader;
  const words = wordsFor(language);
  const own = sheetWords(language);
  const standing = standingOfView(view, plan);
  const ended = voidOf(view, site.holdAfterMin);
  const withdrawn = whyWithdrawn(view, standing, ended.isVoid);
  const isVoid = withdrawn !== null;
  // A stop that was measured stands, however old the forecast is.
  const mark = ended.isVoid && !standing.byLive ? 'unsaid' : standing.mark;
  const shut = shutTimes(windows.windows);
  const span = drawnSpan(view, shut);
  const hours = hoursIn(view, span);
  const rows = sheetRows(view, span, shut);
  const smoke = hours.map(({ hour }) => ({
    towardDeg: hour.smokeGoesToward,
    text: hour.smokeGoesToward === null ? own.noSmoke : pointText(hour.smokeGoesToward, language),
  }));
  const time = (instant: string | null): string =>
    instant === null || isVoid ? '–' : timeOf(instant, plan, language);
  return {
    language,
    demo: plan.demo ? words.demo : null,
    site: plan.name,
    day: dateText(plan.day, language),
    head: headOf(view),
    mark,
    word: wordOf(mark, words),
    reason: withdrawn ?? reasonOf(view),
    voidAfter: ended.title,
    voidNotes: ended.notes,
    times: [
      [words.labels.lightUp, time(plan.lightUp)],
      [words.labels.lastCharge, time(plan.lastCharge)],
      [words.labels.coveredBy, time(plan.coveredBy)],
    ],
    pauses: isVoid ? [] : plan.pauses.map((p) => `${upperFirst(words.noWood(time(p.from), time(p.to)))}.`),
    band: bandOf(view, { span, shut, withdrawn }),
    hours: hours.map(({ name, fromMs }) => ({ name: shortName(name), fromMs })),
    rows,
    smoke,
    places: placesOf(site, view),
    change: isVoid ? [] : plan.wouldChange.moves.map((move) => move.text),
    tailgate: tailgateOf(view, { isVoid, rows, runs: smokeRuns(smoke, hours) }),
    where: [own.position(site.at.join(', ')), own.road, own.emergency],
    caution: words.caution,
  };
}

/** Why no time of the plan stands on it; null where they do. */
function whyWithdrawn(
  { live, reader }: SiteView,
  { state, byLive }: Standing,
  isVoid: boolean,
): string | null {
  if (byLive && live !== null) return `${live.whatToDo}${live.text === live.whatToDo ? '' : ` ${live.text}`}`;
  return isVoid || state === 'void' ? wordsFor(reader.language).labels.notFresh : null;
}

function headOf({ plan, nowMs, reader: { language } }: SiteView): string[] {
  const own = sheetWords(language);
  const at = (instant: string): string => momentAt(instant, plan.timeZone, language, null);
  return [
    `${own.title}. ${own.allTimes(zoneName(plan.timeZone, language, nowMs))}.`,
    `${plan.madeAt === null ? '' : `${own.made(at(plan.madeAt))}. `}${own.workedOut(at(plan.workedOutAt))}.`,
  ];
}

const reasonOf = ({ plan }: SiteView): string | null =>
  plan.lightUp === null ? firstReason(plan) : (plan.tightest?.text ?? null);

interface Named extends Span {
  readonly name: string;
  readonly hour: SiteView['hours']['hours'][number];
}

function hoursIn({ hours, plan, reader }: SiteView, span: Span): Named[] {
  const names = hourNames(hours, plan, reader.language);
  return hours.hours.flatMap((hour, i): Named[] => {
    const fromMs = msOf(hour.from);
    const at = { fromMs, toMs: fromMs + HOUR_MS };
    return overlaps(at, span) ? [{ ...at, name: names[i] ?? '', hour }] : [];
  });
}

/** "9 am" of "9:00 am": the columns are narrow. */
const shortName = (name: string): string => name.replace(/^.*, /, '').replace(':00 ', ' ');

/** A sheet whose times are withdrawn has no go on it. */
function bandOf(
  { windows, plan, reader }: SiteView,
  {
    span,
    shut,
    withdrawn,
  }: { readonly span: Span; readonly shut: readonly Span[]; readonly withdrawn: string | null },
): Sheet['band'] {
  const isVoid = withdrawn !== null;
  const words = wordsFor(reader.language);
  const blocks = windows.windows.flatMap((w): SheetBlock[] => {
    const at = { fromMs: Math.max(span.fromMs, msOf(w.from)), toMs: Math.min(span.toMs, msOf(w.to)) };
    if (at.fromMs >= at.toMs) return [];
    return [{ ...at, kind: isVoid && w.verdict === 'go' ? 'hold' : w.verdict }];
  });
  // Dark and off shift lies over what the weather would allow.
  const dark = shut.flatMap((s): SheetBlock[] => {
    const at = { fromMs: Math.max(span.fromMs, s.fromMs), toMs: Math.min(span.toMs, s.toMs) };
    return at.fromMs < at.toMs ? [{ ...at, kind: 'shut' }] : [];
  });
  const told = windows.windows.map(
    (w) => `${words.verdicts[w.verdict]} ${words.labels.from} ${timeOf(w.from, plan, reader.language)}`,
  );
  const marks = [plan.lightUp, plan.lastCharge, plan.coveredBy].flatMap((t) =>
    t === null || isVoid ? [] : [msOf(t)],
  );
  return {
    span,
    blocks: [...blocks, ...dark],
    marksMs: marks,
    told: withdrawn ?? told.join(', '),
  };
}

function placesOf({ places }: SheetSite, { reader: { language, units } }: SiteView): string[] {
  const own = sheetWords(language);
  const point = (deg: number): string => `${pointText(deg, language)} (${Math.round(deg)}°)`;
  if (places.length === 0) return [own.noPlaces];
  return places.map((p) =>
    own.place(p.name, point(p.fromDeg), point(p.toDeg), distanceText(p.distanceM, units, language)),
  );
}

interface Said {
  readonly isVoid: boolean;
  readonly rows: readonly SheetRow[];
  readonly runs: readonly { readonly text: string; readonly from: string }[];
}

/** As many stops as one can listen to. */
const MOST_STOPS = 4;
const MOST_RUNS = 5;

function tailgateOf({ plan, reader: { language } }: SiteView, { isVoid, rows, runs }: Said): string[] {
  const own = sheetWords(language);
  const at = (instant: string): string => timeOf(instant, plan, language);
  const { lastCharge, coveredBy } = plan;
  const isBurn = !isVoid && lastCharge !== null && coveredBy !== null;
  const stops = rows.slice(0, MOST_STOPS).map(({ name, limit }) => `${name} ${limit}`);
  const blows = runs.slice(0, MOST_RUNS).map((run) => own.smokeRun(run.text, run.from));
  return [
    isBurn ? own.lastWood(at(lastCharge), at(coveredBy)) : own.noFire,
    ...(blows.length === 0 ? [] : [own.smokeRuns(blows.join(', '))]),
    `${own.stops(stops.map((text) => `${text}; `).join(''))}${own.stopsAlso}`,
    ...own.ask,
  ];
}

// Where smoke goes, and which burns it may come from → their published forms, with a sentence for each.

import type { SiteContact } from '#core/site/site-contact.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import type { Burn } from '#core/watch/burn.ts';
import type { Smoke } from '#core/watch/smoke.ts';
import type { JudgedPit } from '#core/watch/smoke-sources.ts';
import type { SmokeAnswer, SmokeSourceAnswer } from '#publish/wire-smoke.ts';
import { amountText, bearingText, distanceText, momentText } from '#publish/wording/show.ts';
import { type SmokeWords, smokeWords } from '#publish/wording/smoke-words.ts';
import type { Reader } from '#publish/wording/words.ts';

export function smokeAnswer(smoke: Smoke, reader: Reader): SmokeAnswer {
  const zone = reader.timeZone;
  const { source } = smoke;
  const tenth = (value: number): number => Math.round(value * 10) / 10;
  const isSector = smoke.kind === 'toward';
  return {
    kind: smoke.kind,
    toward: isSector ? tenth(smoke.towardDeg) % 360 : null,
    halfWidth: isSector ? tenth(smoke.halfWidthDeg) : null,
    windSpeedMps: smoke.speedMps === null ? null : tenth(smoke.speedMps),
    source: source?.kind ?? null,
    station: source?.kind === 'observed' ? source.station : null,
    at: source && rfc3339(source.atMs, zone),
    madeAt: source?.kind === 'forecast' ? rfc3339(source.issuedAtMs, zone) : null,
    text: smokeText(smoke, reader),
  };
}

/** "toward NE (45°), 20° on either side; read by mast at 12:05 pm". */
export function smokeText(smoke: Smoke, { language, units, timeZone, day }: Reader): string {
  const words = smokeWords(language);
  const { kind, source, speedMps } = smoke;
  const speed = speedMps === null ? null : amountText('windSpeed', speedMps, units, language);
  const at = (ms: number): string => momentText(ms, timeZone, language, day);
  const told = (): string => {
    if (kind === 'toward')
      return words.toward(bearingText(smoke.towardDeg, language), Math.round(smoke.halfWidthDeg));
    return kind === 'light' ? words.light(speed) : words[kind];
  };
  if (source === null) return told();
  const by =
    source.kind === 'observed'
      ? words.observed(source.station, at(source.atMs))
      : words.forecast(at(source.atMs), at(source.issuedAtMs));
  return `${told()}; ${by}`;
}

/** A burn as it was at the moment, and its site. */
export interface SourceBurn {
  readonly site: {
    readonly id: string;
    readonly name: string;
    readonly at: readonly [number, number];
    readonly contact: SiteContact;
  };
  readonly burn: Burn;
}

export function smokeSourceAnswer(
  judged: JudgedPit,
  { site, burn }: SourceBurn,
  reader: Reader,
): SmokeSourceAnswer {
  const { timeZone } = reader;
  const orNull = (ms: number | null): string | null => (ms === null ? null : rfc3339(ms, timeZone));
  return {
    site: site.id,
    name: site.name,
    timeZone,
    burn: burn.id,
    state: burn.state,
    litAt: orNull(burn.litAtMs),
    coveredAt: orNull(burn.closedAtMs),
    at: [site.at[0], site.at[1]],
    distanceM: Math.round(judged.distanceM),
    bearing: Math.round(judged.bearingDeg) % 360,
    backBearing: Math.round(judged.backBearingDeg) % 360,
    why: judged.why,
    beside: judged.besideDeg === null ? null : Math.round(judged.besideDeg),
    smoke: judged.smoke && smokeAnswer(judged.smoke, reader),
    permit: site.contact.permit,
    phone: site.contact.phone,
    text: sentences(judged, burn, reader),
  };
}

/** Of a burn whose site is not in force: only that it burns is known. */
export function unplacedAnswer(
  { site, burn }: { readonly site: string; readonly burn: Burn },
  { timeZone, language, day }: Reader,
): SmokeSourceAnswer {
  const orNull = (ms: number | null): string | null => (ms === null ? null : rfc3339(ms, timeZone));
  const words = smokeWords(language);
  const covered =
    burn.closedAtMs === null ? '' : ` ${words.covered(momentText(burn.closedAtMs, timeZone, language, day))}`;
  return {
    ...{ site, name: site, timeZone, burn: burn.id, state: burn.state, why: 'no-place' },
    litAt: orNull(burn.litAtMs),
    coveredAt: orNull(burn.closedAtMs),
    ...{ at: null, distanceM: null, bearing: null, backBearing: null, beside: null, smoke: null },
    ...{ permit: null, phone: null },
    text: `${words.noPlace}${covered}`,
  };
}

function sentences(judged: JudgedPit, burn: Burn, reader: Reader): string {
  const { language, units, timeZone, day } = reader;
  const words = smokeWords(language);
  const { why, besideDeg } = judged;
  const distance = distanceText(judged.distanceM, units, language);
  const smoke = judged.smoke === null ? words.missing : smokeText(judged.smoke, reader);
  const beside = besideDeg === null ? '' : `, ${words.besideMiddle(Math.round(besideDeg))}`;
  const covered =
    burn.closedAtMs === null ? '' : ` ${words.covered(momentText(burn.closedAtMs, timeZone, language, day))}`;
  if (why === 'at-the-pit') return `${words.atThePit(distance)}${covered}`;
  const lies = ` ${words.lies(bearingText(judged.bearingDeg, language), distance)}${beside}.`;
  return `${wayOf(why, words)(smoke)}${lies}${covered}`;
}

function wayOf(why: JudgedPit['why'], words: SmokeWords): (smoke: string) => string {
  if (why === 'sector' || why === 'covered') return words.thisWay;
  if (why === 'outside') return words.elsewhere;
  return why === 'earlier-wind' ? words.earlierWind : words.cannotExclude;
}

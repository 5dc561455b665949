// One step of a chain → the message: both languages, where, and the numbers that it rests on.

import type { CapAlert, CapInfo } from '#core/cap/cap-alert.ts';
import { capArea } from '#core/cap/cap-area.ts';
import { TOPIC } from '#core/cap/notice-says.ts';
import type { ChainStep } from '#core/cap/step-chain.ts';
import type { Transition } from '#core/notices/notice.ts';
import type { Burn } from '#core/watch/burn.ts';
import type { Smoke } from '#core/watch/smoke.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import { type CapWords, capWords } from '#publish/wording/cap-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { type Language, momentText, type UnitSystem } from '#publish/wording/show.ts';
import { capDateTime } from './date-time.ts';
import { alertParameters } from './parameters.ts';

/** What a message was made from: kept beside it, so that it can be told again. */
export type CapTold =
  | { readonly kind: 'notice'; readonly transition: Transition }
  | { readonly kind: 'burn'; readonly burn: Burn | null; readonly id: string };

export interface CapSite {
  /** `organisation/id`. */
  readonly key: string;
  readonly id: string;
  readonly name: string;
  readonly timeZone: string;
  /** Null where it is defined no more. */
  readonly at: readonly [number, number] | null;
  readonly reachM: number;
  readonly phone: string | null;
  readonly externalRef: string | null;
}

export interface CapSender {
  readonly sender: string;
  readonly status: 'Actual' | 'Exercise';
  readonly scope: 'Restricted' | 'Private';
  readonly restriction: string | null;
  readonly addresses: readonly string[];
}

export interface AlertParts {
  readonly identifier: string;
  readonly from: CapSender;
  readonly step: ChainStep;
  readonly told: CapTold;
  readonly site: CapSite;
  /** Null where nothing smokes. */
  readonly smoke: Smoke | null;
  readonly incidents: readonly string[];
  /** Something else of the site stands: nothing is clear there. */
  readonly othersStand: boolean;
  readonly units: UnitSystem;
  readonly say: SayCondition;
}

export function makeAlert(parts: AlertParts): CapAlert {
  const { identifier, from, step, site, told } = parts;
  const { sender, status, scope, restriction, addresses } = from;
  const { msgType, references } = step;
  const isDemo = status === 'Exercise';
  const note = msgType === 'Cancel' ? noteOf(told, capWords('en')) : null;
  return {
    ...{ identifier, sender, status, scope, msgType, references },
    sent: capDateTime(step.sentMs, site.timeZone),
    restriction: scope === 'Restricted' ? restriction : null,
    addresses,
    note: isDemo ? `${capWords('en').demo}${note ?? ''}`.trim() : note,
    incidents: parts.incidents,
    infos: (['en', 'es'] as const).map((language) => infoOf(parts, language)),
  };
}

const noteOf = ({ kind }: CapTold, words: CapWords): string =>
  kind === 'burn' ? words.neverBurned : words.withdrawn;

function infoOf(parts: AlertParts, language: Language): CapInfo {
  const { step, site, told, smoke, from, othersStand } = parts;
  const words = capWords(language);
  const said = saidOf(parts, language);
  const isClear = step.terms.responseType === 'AllClear';
  const onsetMs = told.kind === 'notice' ? told.transition.condition.figures.atMs : null;
  const isAhead = onsetMs !== null && onsetMs > step.sentMs && !step.ends;
  const demo = from.status === 'Exercise' ? words.demo : '';
  const areaDesc = smoke === null ? words.pit(site.name) : words.smokeArea(site.name);
  return {
    ...step.terms,
    // An all-clear is of one matter; a reader takes it for the place.
    responseType: isClear && othersStand ? 'Monitor' : step.terms.responseType,
    language: words.tag,
    event: words.topics[told.kind === 'burn' ? 'burn' : TOPIC[told.transition.condition.code]],
    onset: isAhead ? capDateTime(onsetMs, site.timeZone) : null,
    expires: capDateTime(step.expiresMs, site.timeZone),
    senderName: `Pitward, ${site.key.slice(0, site.key.indexOf('/'))}`,
    headline: `${demo}${said.headline}`,
    description: said.description,
    instruction: `${said.instruction} ${isClear && othersStand ? words.othersStand : words.expiry}`,
    contact: site.phone,
    parameters: alertParameters(parts),
    areas: [
      site.at === null
        ? { areaDesc, polygons: [], circles: [] }
        : capArea(areaDesc, site.at, site.reachM, smoke),
    ],
  };
}

interface SaidText {
  readonly headline: string;
  readonly description: string;
  readonly instruction: string;
}

function saidOf(parts: AlertParts, language: Language): SaidText {
  const { told, site, step } = parts;
  const words = capWords(language);
  if (told.kind === 'burn') return burnSaid(parts, told.burn, language);
  const { condition, verdict, kind } = told.transition;
  const reader = { language, units: parts.units, timeZone: site.timeZone, day: null };
  const sentence = parts.say(site.key, condition, reader);
  if (step.msgType === 'Cancel')
    return {
      headline: `${site.name}: ${words.withdrawn}`,
      description: sentence,
      instruction: words.withdrawnDo,
    };
  if (step.ends)
    return {
      headline: `${site.name}: ${words.over}: ${sentence}`,
      description: sentence,
      instruction: words.overDo,
    };
  const { verdicts, orders, caution } = wordsFor(language);
  // Advice is no leave to light.
  const headline = verdict === 'go' ? sentence : `${verdicts[verdict]}: ${sentence}`;
  const doubt = kind === 'unsure' ? ` ${words.unsure}` : '';
  return {
    headline: `${site.name}: ${headline}`,
    description: `${sentence}${doubt} ${caution}`,
    instruction: verdict === 'go' ? words.topics[TOPIC[condition.code]] : orders[verdict],
  };
}

function burnSaid({ site, step }: AlertParts, burn: Burn | null, language: Language): SaidText {
  const words = capWords(language);
  if (burn === null)
    return {
      headline: `${site.name}: ${words.neverBurned}`,
      description: words.neverBurned,
      instruction: words.withdrawnDo,
    };
  const since = words.since(momentText(burn.sinceMs, site.timeZone, language, null));
  const state = `${words.states[burn.state]} ${since}`;
  return {
    headline: `${site.name}: ${words.topics.burn}: ${state}`,
    description: `${words.burning}: ${state}.`,
    instruction: step.ends ? words.overDo : words.burnDo,
  };
}

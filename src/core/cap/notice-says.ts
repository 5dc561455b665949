// A transition of a notice → what a message says of it, in the terms of the standard. The mapping is ours: no source.

import type { Transition } from '#core/notices/notice.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { Condition, ConditionCode } from '#core/watch/condition.ts';
import type { CapTerms, Category, Certainty, ResponseType, Severity, Urgency } from './cap-alert.ts';
import type { CapSays } from './step-chain.ts';

/** What a message is about, in words that a dispatch centre sorts by. */
export type CapTopic = 'wind' | 'smoke' | 'weather' | 'order' | 'blind' | 'pit';

export const TOPIC: Readonly<Record<ConditionCode, CapTopic>> = {
  'wind-shifted': 'wind',
  'wind-drifted': 'wind',
  'wind-unsteady': 'wind',
  'wind-unmeasured': 'blind',
  'wind-shift-ahead': 'wind',
  'smoke-turned-to-place': 'smoke',
  'observed-beyond-limit': 'weather',
  'thunder-near': 'weather',
  'plan-worse': 'weather',
  'plan-moved': 'weather',
  'plan-verdict': 'weather',
  'official-alert': 'order',
  'local-order': 'order',
  'authority-stop': 'order',
  'forecast-stale': 'blind',
  'station-silent': 'blind',
  'station-doubted': 'blind',
  'reading-missing': 'blind',
  'lit-against-plan': 'pit',
  'lit-without-go': 'pit',
  'last-charge-soon': 'pit',
  'last-charge-due': 'pit',
  'cover-due': 'pit',
  'not-covered-by-dusk': 'pit',
  'look-again': 'pit',
};

const CATEGORIES: Readonly<Record<CapTopic, readonly Category[]>> = {
  wind: ['Met', 'Fire', 'Env'],
  smoke: ['Met', 'Fire', 'Env'],
  weather: ['Met', 'Fire'],
  order: ['Fire', 'Safety'],
  blind: ['Other'],
  pit: ['Fire'],
};

/** What a stop and a hold weigh; a deployer may say otherwise. */
export type CapSeverities = Readonly<Record<Verdict, Severity>>;

export const CAP_SEVERITIES: CapSeverities = { go: 'Minor', hold: 'Minor', stop: 'Moderate' };

/** What is observed of wind is of use for so long; whatever stands is told again before it runs out. */
const LEAST_MS = HOUR_MS;
const MOST_MS = 24 * HOUR_MS;

export function noticeSays(
  { kind, verdict, condition, atMs }: Transition,
  severities: CapSeverities = CAP_SEVERITIES,
): CapSays {
  if (kind === 'over' || kind === 'corrected') return endSays(condition.code, kind);
  return {
    kind: 'stands',
    terms: termsOf(condition, verdict, atMs, severities),
    untilMs: untilMs(condition, atMs),
  };
}

/** The same, told again while it stands. */
export const untilMs = ({ code, basis, validUntilMs }: Condition, atMs: number): number => {
  const isWindNow = TOPIC[code] === 'wind' && basis === 'observed';
  return isWindNow ? atMs + LEAST_MS : Math.min(Math.max(validUntilMs, atMs + LEAST_MS), atMs + MOST_MS);
};

function endSays(code: ConditionCode, kind: 'over' | 'corrected'): CapSays {
  const categories = CATEGORIES[TOPIC[code]];
  return kind === 'over'
    ? { kind: 'over', terms: allClear(categories) }
    : { kind: 'withdrawn', terms: withdrawn(categories) };
}

export const allClear = (categories: readonly Category[]): CapTerms => ({
  categories,
  urgency: 'Past',
  severity: 'Minor',
  certainty: 'Observed',
  responseType: 'AllClear',
});

export const withdrawn = (categories: readonly Category[]): CapTerms => ({
  categories,
  urgency: 'Past',
  severity: 'Unknown',
  certainty: 'Unknown',
  responseType: 'None',
});

function termsOf(condition: Condition, verdict: Verdict, atMs: number, severities: CapSeverities): CapTerms {
  const topic = TOPIC[condition.code];
  const categories = CATEGORIES[topic];
  if (topic === 'blind')
    return {
      categories,
      urgency: 'Immediate',
      severity: 'Unknown',
      certainty: 'Unknown',
      responseType: 'Monitor',
    };
  const urgency = urgencyOf(condition, atMs);
  return {
    categories,
    urgency,
    severity: severities[verdict],
    certainty: condition.truth === 'unknown' ? 'Unknown' : certaintyOf(condition, urgency),
    responseType: responseOf(condition, verdict, urgency),
  };
}

/** By the moment that it is about: what is observed is now, and so is what nobody knows the moment of. */
function urgencyOf({ basis, figures }: Condition, atMs: number): Urgency {
  const aheadMs = (figures.atMs ?? atMs) - atMs;
  if (basis === 'observed' || !(aheadMs > 0)) return 'Immediate';
  return aheadMs <= HOUR_MS ? 'Expected' : 'Future';
}

const PROBABILITIES: readonly (string | null)[] = ['probabilityOfThunder', 'probabilityOfPrecipitation'];

/** That an order stands is a fact; Likely is more than one in two (CAP 1.2, 3.2.2 certainty). */
function certaintyOf({ basis, figures }: Condition, urgency: Urgency): Certainty {
  if (basis === 'observed' || basis === 'record') return 'Observed';
  if (basis === 'order') return urgency === 'Immediate' ? 'Observed' : 'Likely';
  const isRare = PROBABILITIES.includes(figures.element) && !((figures.value ?? 0) > 50);
  return isRare ? 'Possible' : 'Likely';
}

const ACTS: ReadonlySet<ConditionCode> = new Set([
  'last-charge-due',
  'cover-due',
  'not-covered-by-dusk',
  'look-again',
]);

function responseOf({ code, truth }: Condition, verdict: Verdict, urgency: Urgency): ResponseType {
  if (truth === 'unknown' && verdict !== 'stop') return 'Monitor';
  const isAct = verdict === 'stop' || ACTS.has(code);
  if (!isAct) return 'Monitor';
  return urgency === 'Immediate' ? 'Execute' : 'Prepare';
}

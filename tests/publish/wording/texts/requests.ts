// Requests for texts, invented, of any kind.

import type { DayTold, Message } from '#core/notices/message.ts';
import type { Transition, TransitionKind } from '#core/notices/notice.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { coreOf } from '#core/units/quantity.ts';
import type { ConditionBasis, ConditionCode, ConditionFigures } from '#core/watch/condition.ts';
import { NO_FIGURES } from '#core/watch/condition.ts';
import type { TextRequest } from '#publish/wording/texts/text-request.ts';

export const ZONE = 'America/Denver';
/** Monday 2026-03-02, 1:42 pm at the site. */
export const NOW = Date.parse('2026-03-02T20:42:00Z');
export const at = (clock: string, day = '2026-03-02'): number => Date.parse(`${day}T${clock}:00-07:00`);

export interface TransitionText {
  readonly code?: ConditionCode;
  readonly kind?: TransitionKind;
  readonly verdict?: Verdict;
  readonly basis?: ConditionBasis;
  readonly subject?: string;
  readonly figures?: Partial<ConditionFigures>;
  readonly asOfMs?: number | null;
}

export function transition(text: TransitionText = {}): Transition {
  const { code = 'observed-beyond-limit', kind = 'raised', verdict = 'stop', subject = '' } = text;
  return {
    notice: `own/pit-7 ${code} ${subject}`,
    site: 'own/pit-7',
    episode: 'e1',
    number: 1,
    kind,
    atMs: NOW,
    verdict,
    was: null,
    raisedAtMs: NOW,
    inhibited: false,
    condition: {
      code,
      subject,
      truth: kind === 'unsure' ? 'unknown' : 'true',
      verdict,
      basis: text.basis ?? 'observed',
      asOfMs: text.asOfMs === undefined ? at('13:42') : text.asOfMs,
      holdsForMs: 0,
      clearsForMs: 0,
      validUntilMs: NOW + 3_600_000,
      figures: { ...NO_FIGURES, ...(text.figures ?? GUST) },
    },
  };
}

const mph = (value: number): number => coreOf(value, 'mph');

export const GUST: Partial<ConditionFigures> = {
  element: 'windGust',
  value: mph(31),
  bound: mph(25),
  boundUnit: 'mph',
  side: 'atMost',
  source: 'permit',
  windFromDeg: 135,
  windSpeedMps: mph(14),
  gustMps: mph(31),
  atMs: at('13:42'),
  station: 'pit',
};

const BASE = {
  id: 'm1',
  site: 'own/pit-7',
  atMs: NOW,
  validUntilMs: at('14:15'),
  needsAnswer: true,
} as const;

export const notice = (transitions: readonly Transition[], verdict?: Verdict): Message => ({
  ...BASE,
  kind: 'notice',
  verdict: verdict ?? transitions[0]?.verdict ?? 'go',
  transitions,
});

export const summary = (text: Partial<DaySummary> = {}): DaySummary => ({
  date: '2026-03-03',
  verdict: 'go',
  cannotSay: false,
  times: {
    lightUp: at('09:00', '2026-03-03'),
    lightUpBy: at('11:30', '2026-03-03'),
    lastCharge: at('14:30', '2026-03-03'),
    burnedDown: at('15:30', '2026-03-03'),
    coveredBy: at('16:00', '2026-03-03'),
  },
  reasons: [],
  windows: [['go', at('09:00', '2026-03-03'), at('14:30', '2026-03-03')]],
  ...text,
});

export const dayMessage = (
  kind: 'evening' | 'dawn',
  day: DaySummary,
  changes: DayTold['changes'] = null,
): Message => {
  const atMs = kind === 'evening' ? at('17:05') : at('04:45', day.date);
  return {
    ...BASE,
    kind,
    verdict: 'go',
    transitions: [],
    needsAnswer: false,
    atMs,
    validUntilMs: kind === 'evening' ? at('20:05') : at('07:45', day.date),
    day: { date: day.date, day, changes },
  };
};

export const request = (message: Message, more: Partial<TextRequest> = {}): TextRequest => ({
  message,
  parts: null,
  site: { name: 'Pit 7', timeZone: ZONE },
  reader: { language: 'en', units: 'us', role: 'crew' },
  standing: null,
  burning: true,
  asked: message.needsAnswer,
  repeat: 0,
  escalated: false,
  day: null,
  silences: [],
  stationName: (id) => id,
  stationOf: () => null,
  contactName: null,
  answersBy: 'digit',
  answerUrl: null,
  ...more,
});

export const es = { language: 'es', units: 'us', role: 'crew' } as const;
export const office = { language: 'en', units: 'us', role: 'office' } as const;

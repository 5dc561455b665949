// The text about an invented day, in the words of the real one. No test in here.

import type { Plan } from '#core/plan/plan.ts';
import { addDays, clockTimeMs, rfc3339 } from '#core/units/local-time.ts';
import { dayTextOf } from '#jobs/watch/day-text-of.ts';
import type { SiteView } from '#publish/page/site-page.ts';
import { dayFigures } from '#publish/wording/texts/day-figures.ts';
import { renderText } from '#publish/wording/texts/render-text.ts';
import type { Story } from './invented-days.ts';

/** In the language of the story and in the other one, as for a crew that reads both. */
export function textOf(story: Story, plan: Plan): SiteView['text'] {
  const zone = plan.site.timeZone;
  const nowMs = clockTimeMs(story.now, story.clock, zone);
  if (story.day < story.now) return null;
  const kind = story.day === story.now ? ('dawn' as const) : ('evening' as const);
  const date = kind === 'dawn' ? story.day : addDays(story.day, -1);
  const dueAtMs = clockTimeMs(date, kind === 'dawn' ? '04:45' : '17:05', zone);
  const due = { site: 'own/heron-bend-2', date, kind, about: story.day, dueAtMs, validUntilMs: dueAtMs };
  const message = dayTextOf(due, plan, [], { nowMs, hash: (text) => text });
  const day = plan.days[0];
  if (!message || !day) throw new Error('no day');
  const name = `${(story.demo ?? true) ? 'DEMO ' : ''}${plan.site.name}`;
  const texts = (['en', 'es'] as const).map((language) => ({
    language,
    text: renderText({
      message,
      parts: null,
      site: { name, timeZone: zone },
      reader: { language, units: story.units ?? 'us', role: 'crew' },
      standing: null,
      burning: false,
      silences: [],
      asked: false,
      repeat: 0,
      escalated: false,
      day: dayFigures(plan, day),
      stationName: (id) => id,
      stationOf: () => null,
      contactName: null,
      answersBy: 'digit',
      answerUrl: null,
    }).text,
  }));
  return { kind, state: nowMs < dueAtMs ? 'ahead' : 'sent', at: rfc3339(dueAtMs, zone), texts };
}

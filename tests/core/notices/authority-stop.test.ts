// An authority stop is told whether or not a pit burns, and whatever the crew has silenced.

import { describe, expect, it } from 'vitest';
import type { Silence } from '#core/notices/silence.ts';
import { whoIsTold } from '#core/notices/who-is-told.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { audienceOf, contactOf, noticeMessage, transitionOf } from '../../builders/contacts.ts';
import { conditionOf, EIGHT_MS, SITE } from '../../builders/notices.ts';

const stopOf = (code: 'authority-stop' | 'local-order') =>
  transitionOf({ condition: conditionOf(code, 'true', { verdict: 'stop', basis: 'order' }) });

const silence = (change: Partial<Silence> = {}): Silence => ({
  ...{ id: 's', site: SITE, code: null, fromMs: EIGHT_MS, untilMs: EIGHT_MS + HOUR_MS },
  ...{ reason: 'too many texts', by: 'Ana', role: 'crew', endedAtMs: null, endedBy: null },
  ...change,
});

const toldCrew = (transition = stopOf('authority-stop'), change: object = {}) => {
  const message = noticeMessage([transition], { needsAnswer: false });
  const audience = audienceOf([contactOf('crew')], { burnOpen: false, ...change });
  const { told, not } = whoIsTold(message, audience, EIGHT_MS);
  return told.length > 0 ? 'told' : not[0]?.why;
};

describe('an authority stop', () => {
  it('is kept from nobody by a silence of the crew; the office may silence it', () => {
    expect(toldCrew(stopOf('authority-stop'), { silences: [silence()] })).toBe('told');
    expect(toldCrew(stopOf('authority-stop'), { silences: [silence({ code: 'authority-stop' })] })).toBe(
      'told',
    );
    expect(toldCrew(stopOf('authority-stop'), { silences: [silence({ role: 'office' })] })).toBe('silenced');
    expect(toldCrew(stopOf('local-order'), { silences: [silence()] })).toBe('silenced');
  });
});

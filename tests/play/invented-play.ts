// A short shift made by hand, for pages and desks.

import { clockTimeMs } from '#core/units/local-time.ts';
import type { PlayedDay, PlayedEntry, PlayedPerson } from '#publish/page/played-day.ts';

const ZONE = 'America/Los_Angeles';
const at = (clock: string): number => clockTimeMs('2026-04-14', clock, ZONE);
const crew: PlayedPerson = { id: 'a', name: 'Ana', role: 'crew', language: 'es' };
const office: PlayedPerson = { id: 'o', name: 'Office', role: 'office', language: 'en' };

const reading = (clock: string, windFromDeg: number, verdict: 'go' | 'stop'): PlayedEntry => ({
  kind: 'reading',
  atMs: at(clock),
  windSpeedMps: windFromDeg === 350 ? 2.2352 : 4.4704, // 5 and 10 mph, exactly (NIST SP 811, appendix B.8)
  windFromDeg,
  gustMps: 5.36448, // 12 mph
  humidityPct: 50,
  verdict,
  unknown: false,
});

export const invented = (seed: number): PlayedDay => ({
  seed,
  site: 'North block, pit 1',
  timeZone: ZONE,
  lightUpMs: at('09:00'),
  lastChargeMs: at('12:30'),
  coveredByMs: at('14:00'),
  messages: [],
  entries: [
    { kind: 'tap', atMs: at('09:00'), tap: 'lit', by: crew },
    reading('09:00', 350, 'go'),
    reading('09:05', 10, 'go'),
    { kind: 'turn', atMs: at('09:07') },
    reading('09:10', 90, 'stop'),
    { kind: 'text', atMs: at('09:10'), id: 't1', to: crew, text: 'DEMO North: APAGUEN YA. <b>' },
    { kind: 'answer', atMs: at('09:12'), by: office, said: '1' },
    { kind: 'tap', atMs: at('09:40'), tap: 'covered', by: crew },
  ],
});

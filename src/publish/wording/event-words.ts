// Sentences for the log of events.

import type { HookEnd } from '#core/events/hook-step.ts';
import type { TransitionKind } from '#core/notices/notice.ts';
import type { DayTime } from '#core/plan/plan-summary.ts';
import type { Tap } from '#core/watch/burn.ts';
import type { Language } from './show.ts';

export interface EventWords {
  readonly times: Readonly<Record<DayTime, string>>;
  readonly none: string;
  readonly taps: Readonly<Record<Tap, string>>;
  readonly stale: string;
  readonly fresh: string;
  readonly otherReasons: string;
  readonly notices: Readonly<Record<TransitionKind, string>>;
  moved(time: string, from: string, to: string): string;
  windows(goMin: number): string;
  tapped(tap: string, at: string, by: string): string;
  corrected(tap: string, at: string, by: string): string;
  withdrawn(tap: string, by: string): string;
  /** Null: taken back. */
  incident(reference: string | null, by: string): string;
  order(what: 'added' | 'changed' | 'lifted', name: string, by: string): string;
  subscriptionEnded(name: string, why: HookEnd): string;
}

const EN: EventWords = {
  times: {
    lightUp: 'light-up',
    lightUpBy: 'light-up by',
    lastCharge: 'last charge',
    burnedDown: 'burned down',
    coveredBy: 'covered by',
  },
  none: 'none',
  taps: {
    lit: 'Lit',
    charging: 'Charging',
    'burning-down': 'Burning down',
    covered: 'Covered',
    'put-out-early': 'Put out early',
  },
  stale: 'The forecast is too old to go by.',
  fresh: 'The forecast is fresh again.',
  otherReasons: 'other reasons decide.',
  notices: {
    raised: '',
    worse: 'Worse: ',
    eased: 'Eased: ',
    unsteady: 'It comes and goes: ',
    unsure: 'Nobody can say whether it still stands: ',
    still: 'Still: ',
    over: 'Over: ',
    corrected: 'No longer watched: ',
  },
  moved: (time, from, to) => `${time} ${from}, now ${to}.`,
  windows: (goMin) =>
    goMin === 0 ? 'windows moved.' : `${Math.abs(goMin)} min of go ${goMin > 0 ? 'more' : 'less'}.`,
  tapped: (tap, at, by) => `${tap} at ${at}, tapped by ${by}.`,
  corrected: (tap, at, by) => `Corrected by ${by}: ${tap.toLowerCase()} at ${at}.`,
  withdrawn: (tap, by) => `Withdrawn by ${by}: "${tap}" did not happen.`,
  incident: (reference, by) =>
    reference === null
      ? `Incident reference taken back by ${by}.`
      : `Incident ${reference}, assigned by ${by}.`,
  order: (what, name, by) => `Order ${what} by ${by}: ${name}.`,
  subscriptionEnded: (name, why) =>
    `Nothing more is sent to ${name}: ${
      {
        gone: 'it answered that it is gone.',
        failing: 'it took nothing for three days.',
        key: 'the key that asked for it has ended.',
      }[why]
    }`,
};

const ES: EventWords = {
  times: {
    lightUp: 'encendido',
    lightUpBy: 'encender hasta',
    lastCharge: 'última carga',
    burnedDown: 'consumido',
    coveredBy: 'tapado a más tardar',
  },
  none: 'ninguno',
  taps: {
    lit: 'Encendida',
    charging: 'Se carga leña',
    'burning-down': 'Se consume',
    covered: 'Tapada',
    'put-out-early': 'Apagada antes de tiempo',
  },
  stale: 'El pronóstico es demasiado viejo para guiarse por él.',
  fresh: 'El pronóstico es reciente otra vez.',
  otherReasons: 'deciden otras razones.',
  notices: {
    raised: '',
    worse: 'Peor: ',
    eased: 'Mejora: ',
    unsteady: 'Va y viene: ',
    unsure: 'Nadie puede decir si sigue: ',
    still: 'Sigue: ',
    over: 'Terminó: ',
    corrected: 'Ya no se vigila: ',
  },
  moved: (time, from, to) => `${time} ${from}, ahora ${to}.`,
  windows: (goMin) =>
    goMin === 0
      ? 'las ventanas se movieron.'
      : `${Math.abs(goMin)} min ${goMin > 0 ? 'más' : 'menos'} de adelante.`,
  tapped: (tap, at, by) => `${tap}: ${at}, marcado por ${by}.`,
  corrected: (tap, at, by) => `Corregido por ${by}: ${tap.toLowerCase()}, ${at}.`,
  withdrawn: (tap, by) => `Retirado por ${by}: "${tap}" no ocurrió.`,
  incident: (reference, by) =>
    reference === null
      ? `Referencia de incidente retirada por ${by}.`
      : `Incidente ${reference}, asignado por ${by}.`,
  order: (what, name, by) =>
    `Orden ${{ added: 'añadida', changed: 'cambiada', lifted: 'levantada' }[what]} por ${by}: ${name}.`,
  subscriptionEnded: (name, why) =>
    `Ya no se envía nada a ${name}: ${
      {
        gone: 'respondió que ya no existe.',
        failing: 'no recibió nada en tres días.',
        key: 'terminó la clave que lo pidió.',
      }[why]
    }`,
};

export const eventWords = (language: Language): EventWords => (language === 'es' ? ES : EN);

// Words of a page that is a copy, grows old, or has taps that wait: shown by the page's own script and by its worker.

import { atMoment } from './es-clock.ts';
import type { Language } from './show.ts';

/** "{}" stands for a length of time or a number. */
export interface CopyWords {
  copy(written: string): string;
  readonly copyOld: string;
  readonly copyUnknown: string;
  voidAfter(moment: string): string;
  readonly voidNow: string;
  readonly pageOld: string;
  /** The stream is broken. */
  readonly lost: string;
  readonly sound: string;
  readonly soundOn: string;
  readonly waiting: string;
  readonly waitingOne: string;
  readonly signIn: string;
  readonly otherKey: string;
  readonly refused: string;
  readonly refusedSeen: string;
  readonly noCopyTitle: string;
  readonly noCopy: string;
  readonly again: string;
}

const en: CopyWords = {
  copy: (written) => `A copy kept on this phone. The server wrote it ${written}, site time.`,
  copyOld: 'It is {} old.',
  copyUnknown: 'This phone cannot tell how old it is: its clock was set back.',
  voidAfter: (moment) => `Void after ${moment}.`,
  voidNow:
    'This page may no longer say go. Do not light on it. Reload it where there is signal, or call the office.',
  pageOld: 'this page is {} old',
  lost: 'No word from the server; asking again.',
  sound: 'Sound when it gets worse',
  soundOn: 'Sound is on',
  waiting: '{} taps wait for signal',
  waitingOne: '1 tap waits for signal',
  signIn: 'Sign in again to send them; they are kept.',
  otherKey: '{} of another sign-in; they are sent when that one signs in.',
  refused: 'Not taken:',
  refusedSeen: 'I have read this',
  noCopyTitle: 'No copy of this page',
  noCopy:
    'The server does not answer, and this phone has no copy of this page. Nobody can say: do not light.',
  again: 'Try again',
};

const es: CopyWords = {
  copy: (written) =>
    `Una copia guardada en este teléfono. El servidor la escribió ${atMoment(written)}, hora del sitio.`,
  copyOld: 'Es de hace {}.',
  copyUnknown: 'Este teléfono no puede decir de cuándo es: se atrasó su reloj.',
  voidAfter: (moment) => `No vale después de ${moment}.`,
  voidNow:
    'Esta página ya no puede decir adelante. No encender según ella. Vuelva a cargarla donde haya señal, o llame a la oficina.',
  pageOld: 'esta página es de hace {}',
  lost: 'El servidor no responde; se pregunta de nuevo.',
  sound: 'Sonido cuando empeora',
  soundOn: 'Sonido activado',
  waiting: '{} toques esperan señal',
  waitingOne: '1 toque espera señal',
  signIn: 'Entre de nuevo para enviarlos; están guardados.',
  otherKey: '{} de otra clave; se envían cuando entre esa.',
  refused: 'No aceptado:',
  refusedSeen: 'Ya lo leí',
  noCopyTitle: 'No hay copia de esta página',
  noCopy:
    'El servidor no responde, y este teléfono no tiene copia de esta página. Nadie puede decirlo: no encender.',
  again: 'Probar de nuevo',
};

const WORDS: Readonly<Record<Language, CopyWords>> = { en, es };

export const copyWords = (language: Language): CopyWords => WORDS[language];

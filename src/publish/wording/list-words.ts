// Words of the list of sites: what needs somebody, what to do about it, and what the crew has heard.

import type { Language } from './show.ts';

type Need =
  | 'burn-stop'
  | 'not-covered'
  | 'burn-hold'
  | 'undelivered'
  | 'unanswered'
  | 'no-forecast'
  | 'stale'
  | 'cannot-say'
  | 'verdict-changed';
type How = 'seen' | 'cannot' | 'delivered' | 'sent' | 'uncertain' | 'waiting' | 'failed';
type Told = 'evening' | 'dawn' | 'notice';

export interface ListWords {
  readonly needs: Readonly<Record<Need, string>>;
  readonly deeds: Readonly<Record<Need, string>>;
  wasAndIs(was: string, is: string): string;
  /** Before the counts of a day. */
  readonly counts: string;
  /** What somebody must look at, and how many. */
  readonly needYou: string;
  readonly burning: string;
  readonly changed: string;
  /** `when`: the moment of the evening text; null where sites had theirs at different ones. */
  changedSince(count: string, when: string | null): string;
  readonly find: string;
  readonly findHint: string;
  readonly verdict: string;
  readonly any: string;
  readonly day: string;
  readonly show: string;
  readonly all: string;
  readonly look: string;
  readonly reset: string;
  readonly csv: string;
  shown(from: string, to: string, of: string): string;
  readonly noneFound: string;
  readonly pages: string;
  readonly crew: string;
  readonly told: Readonly<Record<Told, string>>;
  readonly heard: Readonly<Record<How, string>>;
  /** So many of so many. */
  of(count: string, all: string, how: string): string;
  readonly notTold: string;
}

const en: ListWords = {
  needs: {
    'burn-stop': 'A fire is open under STOP',
    'not-covered': 'The pit is not covered',
    'burn-hold': 'A fire is open under HOLD',
    undelivered: 'A text was not delivered',
    unanswered: 'Nobody has answered',
    'no-forecast': 'No forecast at hand',
    stale: 'The forecast is too old',
    'cannot-say': "Can't say",
    'verdict-changed': 'Not as the evening text said',
  },
  deeds: {
    'burn-stop': 'Call the crew: put it down and cover.',
    'not-covered': 'Call the crew: cover it, and tap covered.',
    'burn-hold': 'See that no wood goes in and the pit is attended.',
    undelivered: 'Call them: no way of theirs took it. It is tried again.',
    unanswered: 'Call the crew.',
    'no-forecast': 'No light-up. See what the last try says.',
    stale: 'No light-up until a fresh one is here.',
    'cannot-say': 'No light-up. See what is missing.',
    'verdict-changed': 'See that the crew knows.',
  },
  wasAndIs: (was, is) => `was ${was}, now ${is}`,
  counts: 'Sites by verdict',
  needYou: 'Needs you',
  burning: 'Burning',
  changed: 'Changed since the evening text',
  changedSince: (count, when) => `${count} changed since ${when === null ? 'the evening text' : when}`,
  find: 'Find a site',
  findHint: 'name, id or permit',
  verdict: 'Verdict',
  any: 'any',
  day: 'Day',
  show: 'Show',
  all: 'all, needs you first',
  look: 'Show',
  reset: 'Show all',
  csv: 'Download as CSV',
  shown: (from, to, of) => `${from} to ${to} of ${of}. What needs somebody comes first.`,
  noneFound: 'No site is like that.',
  pages: 'Pages of the list',
  crew: 'Crew has seen',
  told: { evening: 'Evening text', dawn: 'Dawn text', notice: 'Notice' },
  heard: {
    seen: 'seen',
    cannot: 'cannot',
    delivered: 'delivered',
    sent: 'sent',
    uncertain: 'may not have arrived',
    waiting: 'not sent yet',
    failed: 'not delivered',
  },
  of: (count, all, how) => `${count} of ${all} ${how}`,
  notTold: 'Nothing was told of late.',
};

const es: ListWords = {
  needs: {
    'burn-stop': 'Hay fuego abierto en ALTO',
    'not-covered': 'La fosa no está tapada',
    'burn-hold': 'Hay fuego abierto en ESPERE',
    undelivered: 'No se entregó un mensaje',
    unanswered: 'Nadie ha respondido',
    'no-forecast': 'No hay pronóstico',
    stale: 'El pronóstico es demasiado viejo',
    'cannot-say': 'No se puede decir',
    'verdict-changed': 'No es como decía el mensaje de la tarde',
  },
  deeds: {
    'burn-stop': 'Llame a la cuadrilla: apagar y tapar.',
    'not-covered': 'Llame a la cuadrilla: tapar, y marcar tapada.',
    'burn-hold': 'Vea que no entre leña y que alguien atienda la fosa.',
    undelivered: 'Llámelos: no les llegó por ninguna vía. Se intenta otra vez.',
    unanswered: 'Llame a la cuadrilla.',
    'no-forecast': 'No encender. Vea qué dice el último intento.',
    stale: 'No encender hasta que haya uno nuevo.',
    'cannot-say': 'No encender. Vea qué falta.',
    'verdict-changed': 'Vea que la cuadrilla lo sepa.',
  },
  wasAndIs: (was, is) => `era ${was}, ahora ${is}`,
  counts: 'Sitios por veredicto',
  needYou: 'Necesitan a alguien',
  burning: 'Con fuego',
  changed: 'Cambiaron desde el mensaje de la tarde',
  changedSince: (count, when) =>
    `${count} cambiaron desde ${when === null ? 'el mensaje de la tarde' : when}`,
  find: 'Buscar un sitio',
  findHint: 'nombre, id o permiso',
  verdict: 'Veredicto',
  any: 'cualquiera',
  day: 'Día',
  show: 'Mostrar',
  all: 'todos, primero los que necesitan a alguien',
  look: 'Mostrar',
  reset: 'Mostrar todos',
  csv: 'Descargar como CSV',
  shown: (from, to, of) => `${from} a ${to} de ${of}. Primero los que necesitan a alguien.`,
  noneFound: 'Ningún sitio es así.',
  pages: 'Páginas de la lista',
  crew: 'La cuadrilla ha visto',
  told: { evening: 'Mensaje de la tarde', dawn: 'Mensaje del amanecer', notice: 'Aviso' },
  heard: {
    seen: 'visto',
    cannot: 'no puede',
    delivered: 'entregado',
    sent: 'enviado',
    uncertain: 'quizá no llegó',
    waiting: 'sin enviar todavía',
    failed: 'no entregado',
  },
  of: (count, all, how) => `${count} de ${all} ${how}`,
  notTold: 'No se avisó nada últimamente.',
};

const WORDS: Readonly<Record<Language, ListWords>> = { en, es };

export const listWords = (language: Language): ListWords => WORDS[language];

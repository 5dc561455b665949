// Words of messages for dispatch centres, beside the sentences that the pages and texts have.

import type { CapTopic } from '#core/cap/notice-says.ts';
import type { Tap } from '#core/watch/burn.ts';
import type { Language } from './show.ts';

export interface CapWords {
  /** RFC 3066. */
  readonly tag: string;
  readonly topics: Readonly<Record<CapTopic | 'burn', string>>;
  readonly states: Readonly<Record<Tap, string>>;
  readonly over: string;
  /** After an all-clear: it is of this matter alone. */
  readonly overDo: string;
  readonly othersStand: string;
  readonly withdrawn: string;
  readonly withdrawnDo: string;
  readonly burning: string;
  readonly burnDo: string;
  readonly neverBurned: string;
  /** Where nobody can say whether it still stands. */
  readonly unsure: string;
  /** Its expiry is no end. */
  readonly expiry: string;
  readonly demo: string;
  pit(site: string): string;
  smokeArea(site: string): string;
  since(at: string): string;
}

const EN: CapWords = {
  tag: 'en-US',
  topics: {
    wind: 'Pit burn: wind',
    smoke: 'Pit burn: smoke toward a protected place',
    weather: 'Pit burn: weather beyond a limit',
    order: 'Pit burn: order in force',
    blind: 'Pit burn: no data to go by',
    pit: 'Pit burn: pit needs attention',
    burn: 'Pit burn under way',
  },
  states: {
    lit: 'lit',
    charging: 'charging',
    'burning-down': 'burning down',
    covered: 'covered',
    'put-out-early': 'put out early, not covered yet',
  },
  over: 'Over',
  overDo: 'This matter is over. That is no leave to light.',
  othersStand: 'Other matters of this site still stand.',
  withdrawn: 'Withdrawn: it is no longer watched, and nobody says that it is over.',
  withdrawnDo: 'Do not go by the earlier messages. Ask the site.',
  burning: 'An air-curtain pit burn with a crew on site',
  burnDo: 'Smoke seen here may come from this pit. Ask the site before sending anybody.',
  neverBurned: 'Withdrawn: no pit was lit; it was tapped by mistake.',
  unsure: 'Nobody can say whether it still stands; treat it as standing.',
  expiry: 'What stands is sent again before it expires; expiry alone is no all-clear.',
  demo: 'DEMONSTRATION: invented site, invented weather. ',
  pit: (site) => `Pit at ${site}`,
  smokeArea: (site) => `Pit at ${site} and where its smoke goes`,
  since: (at) => `since ${at}`,
};

const ES: CapWords = {
  tag: 'es-US',
  topics: {
    wind: 'Quema en fosa: viento',
    smoke: 'Quema en fosa: humo hacia un lugar protegido',
    weather: 'Quema en fosa: tiempo fuera de un límite',
    order: 'Quema en fosa: orden en vigor',
    blind: 'Quema en fosa: sin datos para guiarse',
    pit: 'Quema en fosa: la fosa necesita atención',
    burn: 'Quema en fosa en curso',
  },
  states: {
    lit: 'encendida',
    charging: 'se carga leña',
    'burning-down': 'se consume',
    covered: 'tapada',
    'put-out-early': 'apagada antes de tiempo, aún sin tapar',
  },
  over: 'Terminó',
  overDo: 'Este asunto terminó. Eso no es permiso para encender.',
  othersStand: 'Otros asuntos de este sitio siguen en pie.',
  withdrawn: 'Retirado: ya no se vigila, y nadie dice que haya terminado.',
  withdrawnDo: 'No se guíe por los mensajes anteriores. Pregunte al sitio.',
  burning: 'Quema en fosa con cortina de aire, con cuadrilla en el sitio',
  burnDo: 'El humo que se vea aquí puede venir de esta fosa. Pregunte al sitio antes de enviar a nadie.',
  neverBurned: 'Retirado: no se encendió ninguna fosa; se marcó por error.',
  unsure: 'Nadie puede decir si sigue; trátelo como si siguiera.',
  expiry: 'Lo que sigue en pie se envía otra vez antes de vencer; que venza no significa que terminó.',
  demo: 'DEMOSTRACIÓN: sitio inventado, tiempo inventado. ',
  pit: (site) => `Fosa en ${site}`,
  smokeArea: (site) => `Fosa en ${site} y hacia donde va su humo`,
  since: (at) => `desde ${at}`,
};

export const capWords = (language: Language): CapWords => (language === 'es' ? ES : EN);

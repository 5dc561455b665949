// Words of the map of a board.

import type { Language } from './show.ts';

export interface MapWords {
  readonly title: string;
  readonly north: string;
  /** What the lines are. */
  counties(county: string | null, names: readonly string[]): string;
  readonly states: string;
  net(deg: string): string;
  pin(pin: string, name: string, verdict: string, smoke: string): string;
  toward(toward: string): string;
  readonly noDirection: string;
  readonly asked: string;
  readonly fans: string;
  readonly source: string;
  more(count: number): string;
}

const en: MapWords = {
  title: 'Map of the pits',
  north: 'N',
  counties: (county, names) => {
    const listed = names.length === 0 ? '' : ` On the map: ${names.slice(0, 8).join(', ')}.`;
    return `County lines${county === null ? '' : `; its middle lies in ${county} county`}.${listed}`;
  },
  states: 'State lines; there are too many counties to draw.',
  net: (deg) => `No county lines here: the lines are degrees, one every ${deg}°.`,
  pin: (pin, name, verdict, smoke) => `${pin} ${name}: ${verdict}, ${smoke}.`,
  toward: (toward) => `smoke toward ${toward}`,
  noDirection: 'smoke without a direction',
  asked: 'The cross is the place asked for.',
  fans: 'Fan: where smoke goes, not how far. Dashed ring: no direction. Letters as in the list.',
  source: 'County lines: US Census Bureau, public domain (us-atlas).',
  more: (count) => `And ${count} more, in the list.`,
};

const es: MapWords = {
  title: 'Mapa de las fosas',
  north: 'N',
  counties: (county, names) => {
    const listed = names.length === 0 ? '' : ` En el mapa: ${names.slice(0, 8).join(', ')}.`;
    return `Límites de condados${county === null ? '' : `; el centro queda en el condado de ${county}`}.${listed}`;
  },
  states: 'Límites de estados; hay demasiados condados para dibujarlos.',
  net: (deg) => `Aquí no hay límites de condados: las líneas son grados, una cada ${deg}°.`,
  pin: (pin, name, verdict, smoke) => `${pin} ${name}: ${verdict}, ${smoke}.`,
  toward: (toward) => `humo hacia ${toward}`,
  noDirection: 'humo sin dirección',
  asked: 'La cruz es el lugar por el que se pregunta.',
  fans: 'Abanico: adónde va el humo, no hasta dónde. Anillo a trazos: sin dirección. Letras como en la lista.',
  source: 'Límites de condados: US Census Bureau, dominio público (us-atlas).',
  more: (count) => `Y ${count} más, en la lista.`,
};

const WORDS: Readonly<Record<Language, MapWords>> = { en, es };

export const mapWords = (language: Language): MapWords => WORDS[language];

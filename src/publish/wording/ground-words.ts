// Words of the map with tiles.

import type { Language } from './show.ts';

export interface GroundWords {
  readonly title: string;
  readonly note: string;
  /** In the place of the map until it is drawn, and where no script runs. */
  readonly noScript: string;
  readonly fault: string;
  readonly holes: string;
  readonly nearer: string;
  readonly farther: string;
  readonly all: string;
  readonly board: string;
  readonly toMap: string;
  ground(attribution: string): string;
}

const en: GroundWords = {
  title: 'Map of the pits',
  note: 'Fan: where smoke goes, not how far. Dashed ring: no direction. Drag to move; north is up.',
  noScript: 'This map is drawn by a script. Without one, the board has a map drawn by the server.',
  fault: 'This browser cannot draw this map. The board has one drawn by the server.',
  holes: 'Part of the ground could not be loaded; the pits are where they are.',
  nearer: 'Nearer',
  farther: 'Farther',
  all: 'All pits',
  board: 'Board',
  toMap: 'Map with roads',
  ground: (attribution) => `Ground: ${attribution}`,
};

const es: GroundWords = {
  title: 'Mapa de las fosas',
  note: 'Abanico: adónde va el humo, no hasta dónde. Anillo a trazos: sin dirección. Arrastre para mover; el norte está arriba.',
  noScript:
    'Este mapa lo dibuja un programa de la página. Sin él, el tablero tiene un mapa dibujado por el servidor.',
  fault: 'Este navegador no puede dibujar este mapa. El tablero tiene uno dibujado por el servidor.',
  holes: 'No se pudo cargar parte del terreno; las fosas están donde están.',
  nearer: 'Más cerca',
  farther: 'Más lejos',
  all: 'Todas las fosas',
  board: 'Tablero',
  toMap: 'Mapa con caminos',
  ground: (attribution) => `Terreno: ${attribution}`,
};

const WORDS: Readonly<Record<Language, GroundWords>> = { en, es };

export const groundWords = (language: Language): GroundWords => WORDS[language];

// Texts in Spanish. ALTO, BAJA, FIN and their like end a subscription, SI and INICIO begin one: none stands in them.

import { conditionsEs } from './conditions-es.ts';
import { findingsEs } from './findings-es.ts';
import type { MovedTime, TextWords } from './text-words.ts';

const moved = (word: string, { at, was }: MovedTime): string =>
  was === null ? `${word} ${at}` : `${word} ${at} (era ${was})`;

const told = (what: string, at: string, by: string | null): string =>
  by === null ? `${what}, ${at}.` : `${what}, ${at}, dicho por ${by}.`;

export const wordsEs: TextWords = {
  ...conditionsEs,
  lit: { stop: 'APAGUEN YA', hold: 'NO ECHEN LEÑA', go: 'AVISO' },
  unlit: { stop: 'SIN FUEGO', hold: 'NO ENCIENDAN', go: 'AVISO' },
  duties: {
    'last-charge-soon': 'ÚLTIMA LEÑA',
    'last-charge-due': 'YA NO ECHEN LEÑA',
    'cover-due': 'TAPEN LA FOSA',
    'not-covered-by-dusk': 'TAPEN LA FOSA',
    'look-again': 'REVISEN LA FOSA',
  },
  forCrew: (order, brief) => `${brief ? 'Cuadrilla' : 'A la cuadrilla'}: ${order}`,
  notAnswered: ['LA CUADRILLA NO CONTESTA. LLAMEN.', 'NO CONTESTA.'],
  again: 'Otra vez:',
  worse: 'Peor:',
  eased: 'Mejora:',
  unsteady: 'Va y viene:',
  still: 'Sigue:',
  over: (topic, at) => `Pasó, ${at}: ${topic}.`,
  unsure: (topic) => `No se sabe ahora: ${topic}.`,
  lastKnown: 'No se sabe ahora; lo último:',
  corrected: (topic, at, brief) =>
    brief ? `Retirado, no pasó: ${topic}.` : `Retirado, ${at}: ${topic}. Nadie dice que pasó.`,
  onlyByPlan: ['Leña solo según plan y a ojo.', 'Leña solo según plan.'],
  pit: (lit, nth) => {
    const at = nth === null ? lit : `${lit} (${nth}a)`;
    return [`Fosa encendida ${at}`, `Fosa ${at}`];
  },
  bases: { observed: 'medido', forecast: 'pronóstico', record: 'anotado', order: 'ordenado' },
  smoke: (to, brief) => (brief ? `Humo al ${to}.` : `El humo va al ${to}.`),
  smokeAnywhere: 'El humo puede ir a cualquier lado.',
  more: (count) => `+${count} más.`,
  reply: ['Responda 1=enterado, 2=no puedo, llamen.', '1=ok 2=no puedo,llamen.', '1=ok 2=no puedo.'],
  replyMail: (url) => `Responda aquí: ${url}`,
  cautionShort: 'Ella decide.',
  caution: ['Decide la cuadrilla en el sitio.', 'Decide la cuadrilla.', 'Cuadrilla decide.'],
  until: (clock, brief) => (brief ? `Hasta ${clock}` : `Vale hasta ${clock}.`),
  silenced: (until, by, all) => {
    const bare = `${all ? 'Textos' : 'Algunos textos'} en silencio hasta ${until}`;
    const brief = `${all ? 'Sin textos' : 'Sin todos los textos'} a ${until}.`;
    return [by === '' ? `${bare}.` : `${bare} por ${by}.`, `${bare}.`, brief];
  },
  compass: ['norte', 'noreste', 'este', 'sureste', 'sur', 'suroeste', 'oeste', 'noroeste'],
  weekdays: { mon: 'lun', tue: 'mar', wed: 'mié', thu: 'jue', fri: 'vie', sat: 'sáb', sun: 'dom' },
  elements: {
    windSpeed: 'viento',
    windGust: 'ráfaga',
    windDirection: 'viento del',
    relativeHumidity: 'humedad',
    temperature: 'temperatura',
    dewPoint: 'punto de rocío',
    skyCover: 'nubosidad',
    mixingHeight: 'altura de mezcla',
    transportWindSpeed: 'viento de transporte',
    transportWindDirection: 'transporte del',
    probabilityOfPrecipitation: 'probabilidad de lluvia',
    quantitativePrecipitation: 'lluvia',
    probabilityOfThunder: 'probabilidad de truenos',
    lightningActivityLevel: 'nivel de rayos',
    dispersionIndex: 'índice de dispersión',
    lowVisibilityIndex: 'índice de visibilidad',
    redFlagThreat: 'índice bandera roja',
    ventilationRate: 'ventilación',
    vapourPressureDeficit: 'déficit de vapor',
  },
  limit: (element, value, at, bound, side) =>
    `pronóstico ${element} ${value}${at === null ? '' : `, ${at}`}, límite ${side === 'atLeast' ? 'mínimo ' : ''}${bound}`,
  findings: findingsEs,
  day: {
    today: 'hoy',
    go: 'ADELANTE',
    cannotSay: 'NO SE SABE',
    same: ['Igual que anoche.', 'Igual.'],
    changed: 'CAMBIÓ.',
    was: (word) => `Era ${word}.`,
    lightUp: (time, by) => `${moved('Encender', time)}${by === null ? '' : moved(' a', by)}`,
    lastCharge: (time) => moved('última leña', time),
    coveredBy: (time) => moved('tapada', time),
    times: (light, last, covered) => `De ${light}, leña a ${last}, tapar ${covered}.`,
    pause: (from, to) => `sin leña ${from} a ${to}`,
    pauses: (count) => `${count === 1 ? 'una pausa' : `${count} pausas`}, vea plan`,
    tightest: (limit) => `Lo más justo: ${limit}.`,
  },
  drill: [
    'SIMULACRO. No ha pasado nada. Solo vemos que les llegan los textos.',
    'SIMULACRO. No ha pasado nada.',
  ],
  taps: {
    lit: (at, by) => told('Fosa encendida', at, by),
    charging: (at, by) => told('Echando leña', at, by),
    'burning-down': (at, by) => told('Última leña echada, se consume', at, by),
    covered: (at, by) => told('Fosa tapada', at, by),
    'put-out-early': (at, by) => told('Fosa apagada antes de tiempo', at, by),
  },
  office: {
    order: 'ATIENDA',
    'opted-out': (name) => `${name} ya no quiere textos: avísele de otro modo.`,
    'opted-in': (name) => `${name} recibe textos otra vez.`,
    'not-delivered': (name) => `Un aviso no llegó a ${name}: llámele.`,
    'not-answered': (name) =>
      name === null
        ? 'Nadie contesta un aviso: llame a la cuadrilla.'
        : `${name} no contesta un aviso: llámele.`,
    cannot: (name) => `${name} no puede hacer lo que pide un aviso: llámele.`,
    wrote: (name, text) => `${name} escribe: "${text}"`,
  },
  fallback: (order) =>
    `Pitward: ${order}. No se pudo redactar un aviso de una fosa. Vean la página o llamen a la oficina ya. Decide la cuadrilla.`,
  site: 'Sitio',
};

// Spanish, as spoken on crews in the United States. Units and numbers stay as the reader chose them.

import type { LimitFigures } from '#core/rules/finding.ts';
import { clockPartsAt } from '#core/units/local-time.ts';
import { theClock } from './es-clock.ts';
import { gridWord } from './es-grid.ts';
import { limitAmounts, movesUp } from './limit-amounts.ts';
import {
  amountText,
  bearingText,
  clockText,
  clockTextOf,
  dateText,
  differenceText,
  distanceText,
  durationText,
  momentText,
  numberText,
  pointText,
} from './show.ts';
import { upperFirst } from './text-case.ts';
import type { Reader, Sentences, Words } from './words.ts';

const elements: Words['elements'] = {
  windSpeed: 'viento',
  windGust: 'ráfaga',
  windDirection: 'dirección del viento',
  relativeHumidity: 'humedad',
  temperature: 'temperatura',
  dewPoint: 'punto de rocío',
  skyCover: 'nubosidad',
  mixingHeight: 'altura de mezcla',
  transportWindSpeed: 'viento de transporte',
  transportWindDirection: 'dirección del viento de transporte',
  probabilityOfPrecipitation: 'probabilidad de lluvia',
  quantitativePrecipitation: 'lluvia',
  probabilityOfThunder: 'probabilidad de tormenta eléctrica',
  lightningActivityLevel: 'nivel de actividad de rayos',
  dispersionIndex: 'índice de dispersión',
  lowVisibilityIndex: 'índice de baja visibilidad',
  redFlagThreat: 'índice de bandera roja',
  ventilationRate: 'tasa de ventilación',
  vapourPressureDeficit: 'déficit de presión de vapor',
};

const whyMissing: Words['whyMissing'] = {
  none: 'sin causa conocida',
  gap: 'el pronóstico tiene un hueco',
  'null-value': 'el pronóstico lo dejó en blanco',
  'out-of-range': 'el valor del pronóstico es absurdo',
  contradictory: 'el pronóstico se contradice',
  'part-covered': 'el pronóstico cubre solo parte de la hora',
  ended: 'su pronóstico termina antes de esta hora',
  'layer-absent': 'el pronóstico no lo trae',
  'layer-empty': 'la oficina no lo ha llenado',
  'unit-unknown': 'su unidad no se conoce',
  'layer-unreadable': 'no se puede leer',
};

/** "a las 9:00 am"; on another day "el mar, 24 de nov, a las 9:00 am". */
function when(ms: number, reader: Reader): string {
  const clock = `a ${theClock(clockText(ms, reader.timeZone))}`;
  const { date } = clockPartsAt(ms, reader.timeZone);
  return date === reader.day ? clock : `el ${dateText(date, 'es')}, ${clock}`;
}

/** "para las 3:00 pm"; on another day "para el mar, 24 de nov, a las 3:00 pm". */
function byWhen(ms: number, reader: Reader): string {
  const { date } = clockPartsAt(ms, reader.timeZone);
  return `para ${date === reader.day ? theClock(clockText(ms, reader.timeZone)) : when(ms, reader)}`;
}

const limitText = (f: LimitFigures, reader: Reader): string => {
  const { value, bound } = limitAmounts(f, reader);
  const at = when(f.atMs, reader);
  const derived = f.derived ? ', derivado' : '';
  const category = f.category === null ? '' : ` (categoría ${f.category})`;
  const side = f.side === 'atMost' ? 'máximo' : 'mínimo';
  return `${upperFirst(elements[f.element])} ${value}${category} ${at}${derived}; límite ${side} ${bound} (${f.source}).`;
};

const open = (openEnded: boolean): string => (openEnded ? ' No dice cuándo termina.' : '');

const sentences: Sentences = {
  'within-limits': () => 'Se cumplen todos los límites.',
  'over-limit': limitText,
  'under-limit': limitText,
  'not-judged': () => 'Nada ha juzgado este tiempo.',
  'input-unusable': (f) => `No es un número: ${f.what.join(', ')}.`,
  'element-missing': (f) => `Falta ${elements[f.element]}: ${whyMissing[f.why]}.`,
  'before-forecast': (f, r) =>
    `El pronóstico a mano empieza ${when(f.beginsMs, r)}; antes no se puede decir nada.`,
  'beyond-horizon': (f, r) =>
    `Demasiado lejos para decir: el pronóstico termina el ${momentText(f.endsMs, r.timeZone, r.language, null)}.`,
  'forecast-aging': (f) =>
    `El pronóstico tiene ${durationText(f.ageMin)}; ya toca uno nuevo (aviso después de ${durationText(f.warnAfterMin)}).`,
  'forecast-stale': (f) =>
    `No hay pronóstico reciente: este tiene ${durationText(f.ageMin)}, más de ${durationText(f.holdAfterMin)}.`,
  'forecast-undated': () => 'El pronóstico no dice cuándo se hizo.',
  'forecast-ahead': (f) =>
    `El pronóstico lleva una hora ${durationText(f.aheadMin)} adelantada a este reloj; se toma como hecho ahora.`,
  'forecast-future': (f) =>
    `El pronóstico lleva una hora ${durationText(f.aheadMin)} en el futuro; no es de fiar.`,
  'forecast-faults': (f) =>
    `El pronóstico tiene ${f.count} ${f.count === 1 ? 'dato raro' : 'datos raros'} (${f.kinds.join(', ')}); las horas cuyo valor no se pudo usar no se juzgan.`,
  'official-alert': (f) => {
    const possible = f.possible ? ' Puede ser solo de una zona vecina.' : '';
    return `${f.event}, ${f.sender || 'sin emisor'}.${possible}${open(f.openEnded)}`;
  },
  'alerts-unknown': (f) => {
    if (f.why === 'never-read') return 'No se han leído las alertas oficiales.';
    if (f.why === 'incomplete') return 'Las alertas oficiales no se pudieron leer completas.';
    if (f.why === 'future') return 'Las alertas oficiales se leyeron con un reloj adelantado.';
    return `Las alertas oficiales se leyeron hace ${durationText(f.ageMin)}.`;
  },
  'grid-hazard': (f) =>
    f.event === null
      ? `El pronóstico marca un peligro (${f.phenomenon === null ? 'sin decir cuál' : `${f.phenomenon}.${f.significance}`}); vea las alertas oficiales.`
      : `El pronóstico marca: ${f.event}.`,
  'grid-weather': (f) =>
    `El pronóstico nombra ${gridWord(f.weather)}${f.coverage ? ` (${gridWord(f.coverage)})` : ''}.`,
  'local-order': (f) => `${f.name}, de ${f.issuer}.${open(f.openEnded)}`,
  'authority-stop': (f) => `Paro de la autoridad, ${f.issuer}: ${f.name}. Sigue hasta que se levante.`,
  'season-ban': (f) => `Temporada cerrada, ${f.from} a ${f.to} (${f.source}).`,
  dark: () => 'De noche: sin fuego entre la puesta y la salida del sol.',
  'soon-after-sunrise': (f, r) =>
    `No encender hasta ${durationText(f.afterMin)} después de la salida del sol (${clockText(f.sunriseMs, r.timeZone)}).`,
  'near-sunset': (f, r) =>
    `Apagado ${durationText(f.beforeMin)} antes de la puesta del sol (${clockText(f.sunsetMs, r.timeZone)}).`,
  'off-shift': () => 'Sin turno: no hay nadie que cuide el fuego.',
  'warming-up': (f) => `El soplador trabaja ${durationText(f.warmUpMin)} antes de encender.`,
  'clock-before': (f) => `No encender antes de ${theClock(clockTextOf(f.clock))} (${f.source}).`,
  'clock-charge': (f) => `No echar leña después de ${theClock(clockTextOf(f.clock))} (${f.source}).`,
  'clock-out': (f) => `Apagado a más tardar a ${theClock(clockTextOf(f.clock))} (${f.source}).`,
  'smoke-reaches': (f, r) =>
    `El humo va hacia ${pointText(f.smokeToDeg, 'es')}, a ${f.place}, a ${distanceText(f.distanceM, r.units, r.language)} (viento del ${bearingText(f.windFromDeg, 'es')}).`,
  'smoke-unsure': (f, r) =>
    `Viento ${amountText('windSpeed', f.windSpeedMps, r.units, r.language, f.belowMps)}, menos de ${amountText('windSpeed', f.belowMps, r.units, r.language)}: muy flojo para saber adónde va el humo (${f.places.join(', ')}).`,
  'wind-shift': (f, r) => {
    const turn = `El viento gira ${numberText(f.turnDeg, 0, r.language)}° ${when(f.atMs, r)}, del ${pointText(f.fromDeg, 'es')} al ${pointText(f.toDeg, 'es')} con ${amountText('windSpeed', f.windSpeedMps, r.units, r.language)}`;
    return f.place === null ? `${turn}.` : `${turn}; el humo llega entonces a ${f.place}.`;
  },
  'burn-down-ahead': (f, r) =>
    `Una carga ahora no quedaría apagada y tapada ${byWhen(f.atMs, r)}: eso lleva ${durationText(f.neededMin)}.`,
  'short-run': (f) =>
    `Solo ${durationText(f.lengthMin)} para quemar; menos de ${durationText(f.neededMin)} no vale la pena encender.`,
  'plan-ends': () => 'La ventana sigue más allá de este plan; el plan del día siguiente dice hasta cuándo.',
};

export const spanish: Words = {
  sentences,
  elements,
  whyMissing,
  verdicts: { go: 'ADELANTE', hold: 'ESPERE', stop: 'ALTO' },
  orders: {
    go: 'Puede encender y cargar.',
    hold: 'No encender. Si ya arde: no echar leña, mantener la cortina, no dejar la fosa.',
    stop: 'Sin fuego: apagar y tapar.',
  },
  cannotSay: 'NO SE SABE',
  caution:
    'Un pronóstico no es un permiso: deciden su permiso, las prohibiciones de quema, los bomberos y el ojo en el sitio. Siga las reglas locales y la práctica con licencia.',
  demo: 'DEMO: sitios y pronóstico inventados',
  labels: {
    allSites: 'Todos los sitios',
    lightUp: 'Encender desde',
    lightUpBy: 'A más tardar',
    mayLightUntil: 'Encender a más tardar',
    lastCharge: 'Última carga',
    coveredBy: 'Tapada para',
    burnedDown: 'Consumida',
    warmUp: 'Motor en marcha',
    today: 'Hoy',
    tomorrow: 'Mañana',
    theDay: 'El día',
    whyTheseTimes: 'Por qué estas horas',
    whyNotBefore: 'Por qué no antes:',
    whyStopCharging: 'Por qué dejar de cargar:',
    whyNone: 'Por qué no hay ventana',
    wouldChange: 'Qué lo cambiaría',
    everyHour: 'Cada hora en una tabla',
    windows: 'Ventanas',
    hour: 'Hora',
    smokeGoesToward: 'El humo va hacia',
    forecastMade: 'Pronóstico hecho',
    fetched: 'recibido',
    workedOut: 'calculado',
    nextDue: 'otro se busca antes de',
    nextDays: 'Próximos siete días',
    noWindow: 'sin ventana',
    missing: 'falta',
    derived: 'derivado',
    siteTime: 'hora del sitio',
    noForecast: 'No hay pronóstico a mano',
    from: 'desde',
    until: 'hasta',
    otherLanguage: 'English',
    otherUnits: 'Métrico',
    voidAfter: 'Esta respuesta no vale después de',
    now: 'Ahora',
    advice: 'Conviene saber',
    nightLook: 'Vista de noche',
    dayLook: 'Vista de día',
    usUnits: 'Unidades de EE. UU.',
    answer: 'Respuesta',
    notFresh: 'No es bastante reciente para encender.',
    lastFault: 'Falló el último intento de traer un pronóstico',
    noMoreWoodSince: 'No echar más leña; última carga:',
    nextWindow: 'Próxima ventana',
    pause: 'Pausa: no echar leña',
    whateverTheValues: 'Esto cierra el día, cualesquiera que sean los valores:',
    allOfThese: 'La hora más cercana necesita todo esto:',
    dotsAre: 'Puntos: de noche o sin turno.',
    outOfLimit: 'En negrita y con doble subrayado: fuera de un límite.',
    noSites: 'No hay ningún sitio.',
    choices: 'Vista, unidades e idioma',
    alertsRead: 'alertas leídas',
    besides: 'Además',
    eachOwnTime: 'Las horas son las de cada sitio.',
  },
  tightest: (f, r) => {
    const { value, bound, room } = limitAmounts(f, r);
    const at = when(f.atMs, r);
    const side = f.side === 'atMost' ? 'máximo' : 'mínimo';
    const gap = f.room >= 0 ? `${room} de margen` : `${room} de más`;
    return `Lo más ajustado: ${elements[f.element]} ${value} ${at}, ${gap} (${side} ${bound}, ${f.source}).`;
  },
  move: (f, moveBy, towards, r) => {
    const by = differenceText(f.element, moveBy, r.units, r.language);
    const at = when(f.atMs, r);
    const { value } = limitAmounts(f, r);
    const word = movesUp(f, towards) ? 'más' : 'menos';
    return towards === 'go'
      ? `${upperFirst(elements[f.element])} ${at} tendría que ser ${by} ${word} que ${value}.`
      : `${upperFirst(elements[f.element])} ${by} ${word} que ${value} ${at} cambiaría esa hora a ${spanish.verdicts[towards]}.`;
  },
  nextChange: (atMs, to, r) => `Próximo cambio: ${spanish.verdicts[to]} ${when(atMs, r)}.`,
  burnDown: (min) => `${durationText(min)} para consumirse después de la última carga.`,
  cover: (min) => `${durationText(min)} para tapar con tierra.`,
  warmUp: (min) => `${durationText(min)} de soplador antes de encender.`,
  tooLateToLight: (untilMs, r) =>
    `Ya es tarde para encender. Si ya arde: se puede cargar hasta ${momentText(untilMs, r.timeZone, r.language, r.day)}.`,
  age: (min) =>
    Math.round(min) < 0 ? `con hora ${durationText(-min)} adelantada` : `hace ${durationText(min)}`,
  noWood: (from, to) => `sin echar leña de ${from} a ${to}`,
};

// Words of the page of a past day, as it was known then.

import type { Language } from './show.ts';

type Time = 'lightUp' | 'lightUpBy' | 'lastCharge' | 'burnedDown' | 'coveredBy';
type Outcome = 'waiting' | 'sending' | 'sent' | 'failed' | 'expired' | 'uncertain' | 'superseded';
type Message = 'notice' | 'drill' | 'evening' | 'dawn' | 'burn' | 'office';
type Kind = 'raised' | 'worse' | 'eased' | 'unsteady' | 'unsure' | 'still' | 'over' | 'corrected';

export interface HistoryWords {
  title(day: string): string;
  readonly link: string;
  readonly toDay: string;
  readonly choose: string;
  readonly show: string;
  readonly csv: string;
  knownAt(clock: string): string;
  readonly noPlanThen: string;
  madeBy(at: string, program: string): string;
  readonly rebuilt: Readonly<Record<'same-bytes' | 'other-bytes' | 'not-kept', string>>;
  readonly plans: string;
  readonly noPlans: string;
  readonly columns: Readonly<Record<'made' | 'from' | 'verdict' | 'moved', string>>;
  readonly causes: Readonly<Record<'forecast' | 'alerts' | 'definition' | 'time', string>>;
  receivedAt(at: string, document: string): string;
  readonly first: string;
  readonly same: string;
  readonly stoodAtDawn: string;
  readonly times: Readonly<Record<Time, string>>;
  wasAndIs(what: string, was: string, is: string): string;
  readonly none: string;
  readonly windows: string;
  readonly reasons: string;
  readonly told: string;
  readonly nothingTold: string;
  readonly messages: Readonly<Record<Message, string>>;
  readonly outcomes: Readonly<Record<Outcome, string>>;
  arrived(at: string): string;
  answered(who: string, what: string, at: string, via: string): string;
  readonly said: Readonly<Record<'got-it' | 'cannot', string>>;
  readonly taps: string;
  readonly noTaps: string;
  tapped(at: string, received: string): string;
  by(who: string, from: string): string;
  readonly corrected: string;
  readonly corrects: string;
  readonly withdraws: string;
  readonly noticed: string;
  readonly nothingNoticed: string;
  readonly kinds: Readonly<Record<Kind, string>>;
  readonly untold: string;
  readonly observed: string;
  readonly nothingObserved: string;
  readonly observedNote: string;
  readonly observedColumns: readonly [string, string, string, string, string, string, string];
  beyond(source: string): string;
  readonly unknownDay: string;
  beyondKept(what: string, days: string): string;
  readonly kept: Readonly<Record<'plans' | 'burns' | 'observations', string>>;
}

const en: HistoryWords = {
  title: (day) => `${day}, as it was known then`,
  link: 'What was known and told that day',
  toDay: 'The page of the day',
  choose: 'As known at',
  show: 'Show',
  csv: 'Download the record of the day as CSV',
  knownAt: (clock) => `As known at ${clock}`,
  noPlanThen: 'No plan of this day stood at that time.',
  madeBy: (at, program) => `The plan that stood was made ${at} by version ${program}.`,
  rebuilt: {
    'same-bytes': 'Made again from what is kept: the same byte for byte.',
    'other-bytes':
      'Made again from what is kept, and not the same byte for byte: this version of the program judges otherwise than the one that made it. What was said then is in the list of plans.',
    'not-kept': 'What it was made from is kept no more: only its times are.',
  },
  plans: 'Plans of this day',
  noPlans: 'No plan of this day is kept.',
  columns: { made: 'Made', from: 'Because of', verdict: 'Verdict', moved: 'What moved' },
  causes: {
    forecast: 'forecast',
    alerts: 'official alerts',
    definition: 'site or limits',
    time: 'the clock',
  },
  receivedAt: (at, document) => `forecast received ${at}, ${document}`,
  first: 'first plan of this day',
  same: 'nothing',
  stoodAtDawn: 'stood at dawn',
  times: {
    lightUp: 'light-up',
    lightUpBy: 'latest light-up',
    lastCharge: 'last charge',
    burnedDown: 'burned down',
    coveredBy: 'covered by',
  },
  wasAndIs: (what, was, is) => `${what} ${was} → ${is}`,
  none: 'none',
  windows: 'windows',
  reasons: 'reasons',
  told: 'What was told',
  nothingTold: 'Nothing was told.',
  messages: {
    notice: 'Notice',
    drill: 'Drill',
    evening: 'Evening text',
    dawn: 'Dawn text',
    burn: 'What the crew did',
    office: 'To the office',
  },
  outcomes: {
    waiting: 'not sent yet',
    sending: 'being sent',
    sent: 'sent',
    failed: 'not delivered',
    expired: 'not sent: too late to be of use',
    uncertain: 'may or may not have arrived',
    superseded: 'not sent: something newer was told',
  },
  arrived: (at) => `delivered ${at}`,
  answered: (who, what, at, via) => `${who}: ${what}, ${at} (${via})`,
  said: { 'got-it': 'seen', cannot: 'cannot' },
  taps: 'What the crew tapped',
  noTaps: 'Nothing was tapped.',
  tapped: (at, received) => `${at}, received ${received}`,
  by: (who, from) => `by ${who}, ${from}`,
  corrected: 'replaced later',
  corrects: 'corrects an earlier tap',
  withdraws: 'withdrawn: it did not happen',
  noticed: 'Notices',
  nothingNoticed: 'No notice was raised.',
  kinds: {
    raised: 'raised',
    worse: 'worse',
    eased: 'eased',
    unsteady: 'comes and goes',
    unsure: 'nobody can say',
    still: 'still so, no answer',
    over: 'over',
    corrected: 'no longer watched',
  },
  untold: 'not told: a stop stood',
  observed: 'What was observed',
  nothingObserved: 'Nothing was observed.',
  observedNote:
    'As measured, held against the limits of the plan above. Bold: beyond hold; bold and twice underlined: beyond stop.',
  observedColumns: ['Time', 'Station', 'Wind from', 'Wind', 'Gust', 'Humidity', 'Beyond'],
  beyond: (source) => `limit of: ${source}`,
  unknownDay: 'Nothing is known of this day.',
  beyondKept: (what, days) => `${what} are kept for ${days} days; this day is longer ago.`,
  kept: { plans: 'Plans', burns: 'Taps, texts and notices', observations: 'Observations' },
};

const es: HistoryWords = {
  title: (day) => `${day}, como se sabía entonces`,
  link: 'Qué se sabía y qué se avisó ese día',
  toDay: 'La página del día',
  choose: 'Como se sabía a las',
  show: 'Mostrar',
  csv: 'Descargar el registro del día como CSV',
  knownAt: (clock) => `Como se sabía a las ${clock}`,
  noPlanThen: 'A esa hora no había ningún plan de este día.',
  madeBy: (at, program) => `El plan vigente se hizo ${at} con la versión ${program}.`,
  rebuilt: {
    'same-bytes': 'Rehecho de lo guardado: igual byte por byte.',
    'other-bytes':
      'Rehecho de lo guardado, y no es igual byte por byte: esta versión del programa juzga distinto de la que lo hizo. Lo que se dijo entonces está en la lista de planes.',
    'not-kept': 'Ya no se guarda de qué se hizo: solo sus horas.',
  },
  plans: 'Planes de este día',
  noPlans: 'No se guarda ningún plan de este día.',
  columns: { made: 'Hecho', from: 'A causa de', verdict: 'Veredicto', moved: 'Qué cambió' },
  causes: {
    forecast: 'pronóstico',
    alerts: 'alertas oficiales',
    definition: 'sitio o límites',
    time: 'el reloj',
  },
  receivedAt: (at, document) => `pronóstico recibido ${at}, ${document}`,
  first: 'primer plan de este día',
  same: 'nada',
  stoodAtDawn: 'vigente al amanecer',
  times: {
    lightUp: 'encender',
    lightUpBy: 'encender a más tardar',
    lastCharge: 'última carga',
    burnedDown: 'consumida',
    coveredBy: 'tapada para',
  },
  wasAndIs: (what, was, is) => `${what} ${was} → ${is}`,
  none: 'ninguna',
  windows: 'ventanas',
  reasons: 'razones',
  told: 'Qué se avisó',
  nothingTold: 'No se avisó nada.',
  messages: {
    notice: 'Aviso',
    drill: 'Simulacro',
    evening: 'Mensaje de la tarde',
    dawn: 'Mensaje del amanecer',
    burn: 'Qué hizo la cuadrilla',
    office: 'A la oficina',
  },
  outcomes: {
    waiting: 'sin enviar todavía',
    sending: 'enviándose',
    sent: 'enviado',
    failed: 'no entregado',
    expired: 'no enviado: ya no servía',
    uncertain: 'quizá llegó, quizá no',
    superseded: 'no enviado: se avisó algo más nuevo',
  },
  arrived: (at) => `entregado ${at}`,
  answered: (who, what, at, via) => `${who}: ${what}, ${at} (${via})`,
  said: { 'got-it': 'visto', cannot: 'no puede' },
  taps: 'Qué marcó la cuadrilla',
  noTaps: 'No se marcó nada.',
  tapped: (at, received) => `${at}, recibido ${received}`,
  by: (who, from) => `por ${who}, ${from}`,
  corrected: 'reemplazado después',
  corrects: 'corrige uno anterior',
  withdraws: 'retirado: no ocurrió',
  noticed: 'Avisos en curso',
  nothingNoticed: 'No se levantó ningún aviso.',
  kinds: {
    raised: 'levantado',
    worse: 'peor',
    eased: 'mejor',
    unsteady: 'va y viene',
    unsure: 'nadie puede decirlo',
    still: 'sigue igual, sin respuesta',
    over: 'terminado',
    corrected: 'ya no se vigila',
  },
  untold: 'no se avisó: había un alto',
  observed: 'Qué se midió',
  nothingObserved: 'No se midió nada.',
  observedNote:
    'Como se midió, frente a los límites del plan de arriba. Negrita: fuera de espere; negrita con doble raya: fuera de alto.',
  observedColumns: ['Hora', 'Estación', 'Viento de', 'Viento', 'Ráfaga', 'Humedad', 'Fuera de'],
  beyond: (source) => `límite de: ${source}`,
  unknownDay: 'No se sabe nada de este día.',
  beyondKept: (what, days) => `${what} se guardan ${days} días; este día es más antiguo.`,
  kept: { plans: 'Los planes', burns: 'Marcas, textos y avisos', observations: 'Las mediciones' },
};

const WORDS: Readonly<Record<Language, HistoryWords>> = { en, es };

export const historyWords = (language: Language): HistoryWords => WORDS[language];

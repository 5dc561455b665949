// The conditions of the watch in Spanish. West is always written out: an O, or NO, reads as a word.

import { withoutUnitOf } from './figure-texts.ts';
import type { ConditionSentence, FigureTexts, Size, TextWords } from './text-words.ts';

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const parts = (...words: readonly (string | null | false)[]): string =>
  words.filter((w) => w !== null && w !== false && w !== '').join(' ');

const often = (everyMin: number): string => (everyMin === 60 ? 'cada hora' : `cada ${everyMin} min`);

/** "(Mástil, 7 mi, cada hora: no ve giros cortos)", "(KXYZ 7 mi cada hora)", "KXYZ 7 mi" */
const by = ({ by: it }: FigureTexts, size: Size): string | null => {
  if (it === null) return null;
  const every = it.everyMin === null ? null : often(it.everyMin);
  const short = parts(it.name, it.away, every);
  if (size !== 'whole') return size === 'bare' ? short : `(${short})`;
  const said = [it.name, it.away && `a ${it.away}`, every && `${every}: no ve giros cortos`];
  return `(${said.filter((s) => s !== null && s !== '').join(', ')})`;
};

/** "medido: viento del noroeste 14 mph, ráfaga 22 mph, 1:42 pm" */
const wind = (f: FigureTexts, size: Size): string => {
  const from = f.from === null ? 'de rumbo desconocido' : parts(size !== 'bare' && 'del', f.from);
  const gust = size === 'whole' && f.gust !== null ? `, ráfaga ${f.gust}` : '';
  const blowing = parts('viento', from, f.speed);
  return parts(`${f.basis}: ${blowing}${gust}${f.asOf === null ? '' : `, ${f.asOf}`}`, by(f, size));
};

const limit: ConditionSentence = (f, size) => {
  const side = f.side === 'atLeast' ? 'límite mínimo' : 'límite';
  const source = size !== 'whole' || !f.source ? '' : ` (${f.source})`;
  const at = f.at ?? f.asOf;
  const amount = size === 'bare' ? withoutUnitOf(f.bound, f.value) : f.value;
  const bound = f.bound === null ? '' : `, ${side} ${f.bound}${source}`;
  const value = parts(f.element, amount ?? 'fuera de su límite');
  return `${parts(`${upper(f.basis)}: ${value}${at === null ? '' : `, ${at}`}`, by(f, size))}${bound}.`;
};

const when = (f: FigureTexts): string | null =>
  f.between ? `entre ${f.between[0]} y ${f.between[1]}` : f.at;

const TIMES: Readonly<Record<string, string>> = {
  lightUp: 'encender',
  lightUpBy: 'encender a más tardar',
  lastCharge: 'última leña',
  burnedDown: 'consumida',
  coveredBy: 'tapada para',
};

const VERDICTS: Readonly<Record<string, string>> = {
  go: 'ADELANTE',
  hold: 'SIN LEÑA',
  stop: 'SIN FUEGO',
};

const SAID: Readonly<Record<string, string>> = { hold: 'NO ENCIENDAN', stop: 'SIN FUEGO' };

/** "Pronóstico de 12:10 pm" */
const issued = (f: FigureTexts, size: Size): string =>
  upper(parts(f.basis, size === 'whole' && f.asOf !== null && `de ${f.asOf}`));

const moved: ConditionSentence = (f, size) => {
  const told = TIMES[f.code ?? ''] ?? 'una hora';
  const was = f.wasAt === null || size === 'bare' ? '' : ` (era ${f.wasAt})`;
  return `${issued(f, size)}: ${f.at === null ? `ya sin hora de ${told}` : `${told} ahora ${f.at}`}${was}.`;
};

const turnAhead: ConditionSentence = (f, size) => {
  const at = f.at === null ? '' : `, ${f.at}`;
  if (size === 'bare')
    return `${upper(f.basis)}: ${parts('viento', f.from ? `del ${f.from}` : 'gira')}${at}.`;
  const place = size === 'whole' && f.place ? `; humo hacia ${f.place}` : '';
  return `${upper(f.basis)}: el viento gira ${parts(f.was && `del ${f.was}`, f.from && `al ${f.from}`)}${at}${place}.`;
};

const upperWind = (f: FigureTexts, size: Size): string => upper(wind(f, size));

/** Whose word a last charge is. */
const byPlan = ({ basis, code }: FigureTexts): string =>
  ({ lastChargeOld: 'pronóstico viejo', lastChargeTold: 'último plan dicho' })[code ?? ''] ?? basis;

/** What a station is to tell. */
const measured = (f: FigureTexts): string =>
  f.elementCode === 'windDirection' ? 'rumbo del viento' : (f.element ?? 'medición');

const coveredPit = ({ code }: FigureTexts, size: Size): string => {
  if (code === 'several') return ' en todas las fosas tapadas';
  return size === 'bare' ? '' : ' en la fosa tapada';
};

export const conditionsEs: Pick<TextWords, 'sentences' | 'topics'> = {
  sentences: {
    'wind-shifted': (f, size) =>
      size === 'whole'
        ? `Giró el viento${f.was === null ? '' : `, antes del ${f.was}`}${when(f) === null ? '' : `, ${when(f)}`}. ${upperWind(f, size)}.`
        : `${upperWind(f, size)}${f.was === null || size === 'bare' ? '' : `, era del ${f.was}`}.`,
    'wind-drifted': (f, size) =>
      size === 'whole'
        ? `El viento se corrió${f.was === null ? '' : ` desde el ${f.was}`}. ${upperWind(f, size)}.`
        : `${upperWind(f, size)}${f.was === null || size === 'bare' ? '' : `, esperado del ${f.was}`}.`,
    'smoke-turned-to-place': (f, size) =>
      size === 'bare'
        ? `${parts('Humo a', f.place ?? 'un lugar', f.basis, 'viento', f.from, f.speed, f.asOf, by(f, size))}.`
        : `Humo hacia ${f.place ?? 'un lugar protegido'}. ${upperWind(f, size)}.`,
    'wind-unsteady': (f, size) => {
      if (size === 'whole') return `El viento cambia sin cesar. ${upperWind(f, size)}.`;
      return size === 'brief'
        ? `${upperWind(f, size)}, cambia.`
        : `${upper(f.basis)}: ${parts(`viento cambiante${f.asOf === null ? '' : `, ${f.asOf}`}`, by(f, size))}.`;
    },
    'observed-beyond-limit': limit,
    'thunder-near': (f, size) =>
      `${upper(f.basis)}: truenos cerca${f.at === null ? '' : `, ${f.at}`}${size === 'whole' && f.station ? ` (${f.station})` : ''}.`,
    'official-alert': (f, size) =>
      f.what === null
        ? 'No se pueden leer las alertas oficiales.'
        : `${parts('Alerta oficial:', f.what, f.at && `desde ${f.at}`, size === 'whole' && f.source && `(${f.source})`)}.`,
    'local-order': (f, size) =>
      `${parts('Orden:', f.what ?? 'vea la oficina', size === 'whole' && f.source && `(${f.source})`)}.`,
    // Whose it is comes first: it is never left out.
    'authority-stop': (f, size) =>
      `Sin fuego por orden de ${f.source ?? 'la autoridad'}${size === 'bare' || f.what === null ? '' : `: ${f.what}`}.`,
    'plan-worse': (f, size) =>
      `${issued(f, size)} peor: ${parts(VERDICTS[f.code ?? ''] ?? 'se puede menos', size !== 'bare' && f.at !== null && `desde ${f.at}`)}.`,
    'plan-moved': moved,
    'plan-verdict': (f, size) => {
      const lit = f.at === null ? f.wasAt && `se encendía ${f.wasAt}` : `encender ${f.at}`;
      const more = size === 'bare' || lit === null ? '' : ` (${lit})`;
      return `${issued(f, size)}: el día es ahora ${VERDICTS[f.code ?? ''] ?? 'otro'}${more}.`;
    },
    'wind-shift-ahead': turnAhead,
    'forecast-stale': (f, size) =>
      `${f.wasAt === null ? 'No hay pronóstico a mano' : `Sin pronóstico nuevo desde ${f.wasAt}`}${size === 'bare' ? '' : ': decidan a ojo'}.`,
    'station-silent': (f, size) =>
      `${parts('Sin datos', f.station && `de ${f.station}`, f.wasAt && `desde ${f.wasAt}`)}${size === 'bare' ? '' : `: ${f.readEveryMin === null ? 'vigilen' : 'midan'} el viento`}.`,
    'station-doubted': (f, size) => {
      const since = size === 'bare' ? null : f.wasAt && `desde ${f.wasAt}; vigilen el viento`;
      return `${upper(f.basis)}: ${parts('datos', f.station && `de ${f.station}`, 'no fiables', since)}.`;
    },
    'reading-missing': (f, size) => {
      const station = size === 'whole' && f.station !== null && `(${f.station})`;
      const missing = parts(
        'Sin dato de',
        measured(f),
        size !== 'bare' && f.wasAt !== null && `desde ${f.wasAt}`,
        station,
      );
      return `${missing}${size === 'bare' ? '' : `: ${f.subject === 'wind' ? 'vigilen el viento' : 'decidan a ojo'}`}.`;
    },
    'wind-unmeasured': (f, size) => {
      if (f.station === null) {
        return size === 'bare'
          ? 'Nadie mide el viento: vigilen el humo.'
          : 'Aquí nadie mide el viento, solo hay pronóstico: vigilen viento y humo.';
      }
      const every = f.readEveryMin === null ? '' : ` y cada ${f.readEveryMin} min`;
      return size === 'bare'
        ? 'Viento sin medir: usen el medidor.'
        : `Aquí nadie mide el viento: usen el medidor de mano ahora${every}.`;
    },
    'lit-against-plan': (f, size) => {
      const said =
        f.code === 'lightUpBy' ? 'tarde para el plan' : `el plan decía ${SAID[f.code ?? ''] ?? 'otra cosa'}`;
      return `${parts(size === 'bare' ? 'Encendida' : 'Fosa encendida', f.at)}, ${size === 'bare' ? 'contra el plan' : said}.`;
    },
    'lit-without-go': (f, size) => {
      const said = f.code === 'noPlan' ? 'sin plan' : `se vigilaba: ${SAID[f.code ?? ''] ?? 'otra cosa'}`;
      return `${parts(size === 'bare' ? 'Encendida' : 'Fosa encendida', f.at)}, ${said}.`;
    },
    'last-charge-soon': (f) => `${parts('Última leña', f.at ?? 'pronto')} (${byPlan(f)}).`,
    'last-charge-due': (f, size) =>
      `${parts(size === 'bare' ? 'Última leña' : 'La última leña tocaba', f.at)} (${byPlan(f)}).`,
    'cover-due': (f, size) =>
      `${parts(size === 'bare' ? 'Tapada' : 'Hay que tapar la fosa', f.at && `para ${f.at}`)}.`,
    'not-covered-by-dusk': (f, size) =>
      size === 'bare'
        ? 'Sin aviso de tapada, ya de noche.'
        : `${parts('Sin aviso de tapada; el sol se puso', f.at ?? 'ya')}.`,
    'look-again': (f, size) =>
      `Busquen humo o calor${coveredPit(f, size)}${/^\d{1,3}$/.test(f.subject) ? `, día ${f.subject}` : ''}.`,
  },
  topics: {
    'wind-shifted': () => 'giro del viento',
    'wind-drifted': (f) =>
      f.code === 'rebriefed'
        ? parts('viento corrido; ya conocen', f.from && `el del ${f.from}`)
        : 'viento corrido',
    'smoke-turned-to-place': (f) => `humo hacia ${f.place ?? 'un lugar'}`,
    'wind-unsteady': () => 'viento cambiante',
    'observed-beyond-limit': (f) =>
      parts(
        f.element ?? 'un valor',
        'fuera del límite',
        f.bound,
        f.code === 'other-wind' &&
          '(no comparable: medido a otra altura o en otro tiempo; cuenta como sin leña)',
      ),
    'thunder-near': () => 'truenos cerca',
    'official-alert': (f) => f.what ?? 'alertas oficiales',
    'local-order': (f) => f.what ?? 'una orden',
    'authority-stop': (f) => `orden de no hacer fuego de ${f.source ?? 'la autoridad'}`,
    'plan-worse': () => 'plan peor',
    'plan-moved': (f) => `hora de ${TIMES[f.code ?? ''] ?? 'plan'}`,
    'plan-verdict': () => 'plan cambiado',
    'wind-shift-ahead': () => 'giro previsto',
    'forecast-stale': () => 'pronóstico viejo',
    'station-silent': (f) => parts('estación callada', f.station),
    'station-doubted': (f) => parts('estación dudosa', f.station),
    'reading-missing': (f) => `sin dato de ${measured(f)}`,
    'wind-unmeasured': () => 'viento sin medir',
    'lit-against-plan': () => 'encendida contra plan',
    'lit-without-go': () => 'encendida sin permiso',
    'last-charge-soon': () => 'última leña pronto',
    'last-charge-due': () => 'última leña',
    'cover-due': () => 'tapar la fosa',
    'not-covered-by-dusk': () => 'sin tapar de noche',
    'look-again': () => 'revisar la fosa',
  },
};

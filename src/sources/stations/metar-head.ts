// A report's text taken apart: who, when, how made, its body, and its remarks. Form: FMH-1 chapter 12.

export interface MetarHead {
  /** Four letters and digits. */
  readonly stationId: string;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  /** Made without a person. */
  readonly automatic: boolean;
  readonly corrected: boolean;
  /** Groups before the remarks and before any trend forecast, which speaks of later. */
  readonly body: readonly string[];
  readonly remarks: readonly string[];
}

/** Longer than any report; what is longer is not looked at. */
const MOST_CHARACTERS = 1_000;
const TREND = /^(?:BECMG|TEMPO|INTER|NOSIG|PROB\d{2}|FM\d{4,6})$/;
const TIME = /^(\d{2})(\d{2})(\d{2})Z$/;

/** Null where the text is no report, or one that says that there is none. */
export function readMetarHead(text: string): MetarHead | null {
  if (text.length > MOST_CHARACTERS) return null;
  const groups = text.trim().replace(/=+$/, '').split(/\s+/);
  let at = groups[0] === 'METAR' || groups[0] === 'SPECI' ? 1 : 0;
  let corrected = false;
  if (groups[at] === 'COR') {
    corrected = true;
    at += 1;
  }
  const stationId = groups[at] ?? '';
  const time = TIME.exec(groups[at + 1] ?? '');
  if (!/^[A-Z][A-Z0-9]{3}$/.test(stationId) || !time) return null;
  let automatic = false;
  for (at += 2; isFlag(groups[at]); at += 1) {
    if (groups[at] === 'AUTO') automatic = true;
    else corrected = true;
  }
  const rest = groups.slice(at);
  if (rest.length === 0 || rest[0] === 'NIL') return null;
  const remarkAt = rest.indexOf('RMK');
  const told = remarkAt < 0 ? rest : rest.slice(0, remarkAt);
  const trendAt = told.findIndex((group) => TREND.test(group));
  return {
    stationId,
    day: Number(time[1]),
    hour: Number(time[2]),
    minute: Number(time[3]),
    automatic,
    corrected,
    body: trendAt < 0 ? told : told.slice(0, trendAt),
    remarks: remarkAt < 0 ? [] : rest.slice(remarkAt + 1),
  };
}

/** `CCA`: the first correction, as Canada writes it. */
const isFlag = (group: string | undefined): boolean =>
  group !== undefined && (group === 'AUTO' || group === 'COR' || /^CC[A-Z]$/.test(group));

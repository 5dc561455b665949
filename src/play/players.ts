// The people and the instrument of a simulated shift: they tap, measure and answer through the API, and what their phones
// get is written down beside it.

import { rfc3339 } from '#core/units/local-time.ts';
import { coreOf } from '#core/units/quantity.ts';
import type { PlayReading, PlayScenario } from '#demo/play.ts';
import { ServiceError } from '#errors.ts';
import type { PlayedEntry, PlayedPerson } from '#publish/page/played-day.ts';
import type { PlayedService } from './open-played-service.ts';
import { PLAYED_STATION } from './played-config.ts';

type Tap = Extract<PlayedEntry, { kind: 'tap' }>['tap'];
type Part = PlayScenario['answer']['by'];

export interface Players {
  readonly entries: readonly PlayedEntry[];
  windTurns(ms: number): void;
  tap(tap: Tap, ms: number): Promise<void>;
  /** The instrument posts what it measures. */
  read(reading: PlayReading, ms: number): Promise<void>;
  answer(by: Part, ms: number): Promise<void>;
  /** Sends what is due, and writes down what arrived. */
  texts(): Promise<void>;
  /** When the office got its first text after the moment; null: it has none. */
  officeAskedAtMs(afterMs: number): number | null;
  answeredAtMs(): number | null;
  coveredAtMs(): number | null;
}

const SAYS_GOT_IT = '1';

export function createPlayers(played: PlayedService, siteId: string): Players {
  const entries: PlayedEntry[] = [];
  const people = peopleOf(played);
  const site = `/v1/sites/${siteId}`;
  let noted = 0;
  let burn: string | null = null;
  const texts = async (): Promise<void> => {
    await played.service.watching.send();
    for (const { id, to, text, atMs } of played.phones.texts.slice(noted)) {
      entries.push({ kind: 'text', atMs, id, to: people.at(to), text });
    }
    noted = played.phones.texts.length;
  };
  const last = (
    kind: PlayedEntry['kind'],
    like: (entry: PlayedEntry) => boolean = () => true,
  ): number | null => entries.find((entry) => entry.kind === kind && like(entry))?.atMs ?? null;
  return {
    entries,
    texts,
    windTurns: (atMs) => entries.push({ kind: 'turn', atMs }),
    async tap(tap, atMs) {
      const by = people.in('crew');
      entries.push({ kind: 'tap', atMs, tap, by });
      const body = { tap, by: by.name, id: `played-${tap}` };
      const opened = await played.ask(
        'POST',
        burn === null ? `${site}/burns` : `${site}/burns/${burn}/taps`,
        body,
      );
      burn ??= String(opened['id']);
      await texts();
    },
    async read(reading, atMs) {
      const { results } = await played.ask('POST', `${site}/observations`, posted(reading, atMs));
      if ((results as { outcome: string }[])[0]?.outcome !== 'kept') {
        throw new ServiceError(
          'internal',
          `a reading of the simulated shift was not kept: ${JSON.stringify(results)}`,
        );
      }
      const { verdict, unknown } = (await played.ask('GET', `${site}/now`)) as unknown as Live;
      entries.push({ kind: 'reading', atMs, ...measured(reading), verdict, unknown });
      await texts();
    },
    async answer(part, atMs) {
      const by = people.in(part);
      entries.push({ kind: 'answer', atMs, by, said: SAYS_GOT_IT });
      const from = people.numberOf(by);
      await played.ask('POST', '/v1/inbound/text', { id: `played-${atMs}`, from, text: SAYS_GOT_IT });
      await texts();
    },
    officeAskedAtMs: (afterMs) =>
      last('text', (e) => e.kind === 'text' && e.atMs >= afterMs && e.to.role === 'office'),
    answeredAtMs: () => last('answer'),
    coveredAtMs: () => last('tap', (e) => e.kind === 'tap' && e.tap === 'covered'),
  };
}

type Live = Pick<Extract<PlayedEntry, { kind: 'reading' }>, 'verdict' | 'unknown'>;

const posted = ({ windKt, gustKt, fromDeg, humidityPct }: PlayReading, atMs: number) => ({
  station: PLAYED_STATION,
  time: rfc3339(atMs, 'UTC'),
  windSpeed: `${windKt} kt`,
  windDirection: fromDeg,
  windGust: `${gustKt} kt`,
  relativeHumidity: `${humidityPct} %`,
});

const measured = ({ windKt, gustKt, fromDeg, humidityPct }: PlayReading) => ({
  windSpeedMps: coreOf(windKt, 'kt'),
  gustMps: coreOf(gustKt, 'kt'),
  windFromDeg: fromDeg,
  humidityPct,
});

function peopleOf({ contacts }: PlayedService) {
  const people = contacts.map(({ id, name, role, language, step, ways }) => ({
    person: { id, name, role, language } satisfies PlayedPerson,
    step,
    number: ways[0]?.to ?? '',
  }));
  const found = (like: (one: (typeof people)[number]) => boolean, whom: string): PlayedPerson => {
    const one = people.find(like);
    if (one === undefined) throw new ServiceError('internal', `the demo has no contact for ${whom}`);
    return one.person;
  };
  return {
    at: (number: string) => found((one) => one.number === number, number),
    in: (part: Part) =>
      found(
        ({ person: { role }, step }) =>
          part === 'office' ? role === part : role === 'crew' && step > 0 === (part === 'second'),
        part,
      ),
    numberOf: (person: PlayedPerson) => people.find((one) => one.person === person)?.number ?? '',
  };
}

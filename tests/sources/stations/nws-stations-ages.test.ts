// Old, missing and repeated observations of the NWS API over real HTTP. Public reports of faults are named beside their
// cases.

import { describe, expect, it } from 'vitest';
import { MINUTE_MS } from '#core/units/time.ts';
import {
  failing,
  fakeStations,
  json,
  latest,
  list,
  listed,
  observed,
  since,
  station,
} from './fake-stations.ts';

const SINCE_KNEAR = since('KNEA', '2026-03-02T16:20:00Z');
const kinds = (reading: { faults: readonly { kind: string }[] }) => reading.faults.map(({ kind }) => kind);

describe('ages and holes', () => {
  const named = () => [station({ kind: 'nws', stationId: 'KNEA' })];
  const times = (reading: { observations: readonly { observation: { observedAtMs: number } }[] }) =>
    reading.observations.map(({ observation }) =>
      new Date(observation.observedAtMs).toISOString().slice(11, 16),
    );
  const routes = (more = {}) => ({
    '/stations/KNEA': json(listed('KNEA', 4)),
    '/stations/KNEA/observations?': json(list()),
    ...more,
  });

  it('the first reading looks two hours back, in order, each moment once (MatthewFlamm/pynws#59, #70)', async () => {
    const fake = await fakeStations(
      named(),
      routes({
        [latest('KNEA')]: json(observed('17:53', 18, 220)),
        '/stations/KNEA/observations?': json(
          list(observed('16:53', 9, 220), observed('17:53', 18, 220), observed('17:13', 9, 210)),
        ),
      }),
    );
    expect(times(await fake.source.read())).toEqual(['16:53', '17:13', '17:53']);
    expect(fake.asked()).toContain(SINCE_KNEAR);
  });

  it('later ones ask for the latest alone, unless others may lie between', async () => {
    const fake = await fakeStations(named(), routes({ [latest('KNEA')]: json(observed('17:53', 18, 220)) }));
    await fake.source.read();
    fake.asked();
    fake.clock.advance(5 * MINUTE_MS);
    await fake.source.read();
    fake.routes[latest('KNEA')] = json(observed('17:58', 18, 220));
    await fake.source.read();
    expect(fake.asked()).toEqual([latest('KNEA'), latest('KNEA')]);
    fake.clock.advance(115 * MINUTE_MS);
    fake.routes[latest('KNEA')] = json(observed('19:53', 18, 220));
    fake.routes['/stations/KNEA/observations?'] = json(list(observed('18:53', 9, 200)));
    expect(times(await fake.source.read())).toEqual(['18:53', '19:53']);
    // No farther back than two hours, nor than what was read before.
    expect(fake.asked()).toEqual([latest('KNEA'), since('KNEA', '2026-03-02T18:20:00Z')]);
  });

  it('a hole that cannot be filled is told, and asked for again', async () => {
    const fake = await fakeStations(
      named(),
      routes({
        [latest('KNEA')]: json(observed('17:53', 18, 220)),
        '/stations/KNEA/observations?': failing(404, 'NotFound'),
      }),
    );
    const reading = await fake.source.read();
    expect(times(reading)).toEqual(['17:53']);
    expect(kinds(reading)).toEqual(['hole-not-filled']);
    fake.routes['/stations/KNEA/observations?'] = json(list(observed('16:53', 9, 220)));
    expect(times(await fake.source.read())).toEqual(['16:53', '17:53']);
  });

  it('a blank five-minute observation asks for the list, where the hourly one is whole (weather-gov/api#168)', async () => {
    const fake = await fakeStations(named(), routes({ [latest('KNEA')]: json(observed('17:53', 18, 220)) }));
    await fake.source.read();
    fake.routes[latest('KNEA')] = json(observed('18:15', null, null));
    fake.routes['/stations/KNEA/observations?'] = json(list(observed('17:53', 18, 220)));
    fake.clock.advance(2 * MINUTE_MS);
    const reading = await fake.source.read();
    expect(times(reading)).toEqual(['17:53', '18:15']);
    // No carry-over (home-assistant/core#90005): the blank one stays blank.
    expect(reading.observations[1]?.observation.wind).toEqual({ kind: 'missing', speedMps: null });
  });

  it('of two of one moment the fuller counts (weather-gov/api#66), and a correction before all', async () => {
    const raw = (rawMessage: string) => ({ rawMessage });
    const fake = await fakeStations(
      named(),
      routes({
        [latest('KNEA')]: json(observed('17:53', 18, 220, raw('KNEA 021753Z 22010KT'))),
        '/stations/KNEA/observations?': json(
          list(
            observed('17:53', null, 310, raw('KNEA 021753Z COR 31010KT')),
            observed('16:53', null, null),
            observed('16:53', 9, 200),
          ),
        ),
      }),
    );
    const reading = await fake.source.read();
    expect(reading.observations).toMatchObject([
      { observation: { wind: { fromDeg: 200 } } },
      { observation: { corrects: true, wind: { fromDeg: 310 } } },
    ]);
  });

  it('an old answer is asked for once more past the caches, and a cache that slept is told (home-assistant/core#148450)', async () => {
    let tries = 0;
    const fake = await fakeStations(
      named(),
      routes({
        [latest('KNEA')]: (response: never, request: never, count: number) => {
          tries += 1;
          json(observed(tries === 1 ? '07:07' : '17:53', 18, 220))(response, request, count);
        },
      }),
    );
    const reading = await fake.source.read();
    expect(times(reading)).toEqual(['17:53']);
    expect(kinds(reading)).toEqual(['kept-by-a-cache']);
  });

  it('one that stays old is passed on as it is, and not asked for twice again', async () => {
    const fake = await fakeStations(named(), routes({ [latest('KNEA')]: json(observed('07:07', 18, 220)) }));
    expect(times(await fake.source.read())).toEqual(['07:07']);
    fake.asked();
    fake.clock.advance(5 * MINUTE_MS);
    expect(times(await fake.source.read())).toEqual(['07:07']);
    expect(fake.asked().filter((path) => path === latest('KNEA'))).toHaveLength(1);
  });

  it('a time from the future is told, and hides nothing', async () => {
    const fake = await fakeStations(
      named(),
      routes({
        [latest('KNEA')]: json(observed('23:53', 18, 220)),
        '/stations/KNEA/observations?': json(list(observed('17:53', 9, 200))),
      }),
    );
    const reading = await fake.source.read();
    expect(times(reading)).toEqual(['17:53']);
    expect(kinds(reading)).toEqual(['ahead-of-time']);
    // Nor does it pass for what was read last: the next reading still asks what lies between.
    fake.clock.advance(40 * MINUTE_MS);
    fake.routes[latest('KNEA')] = json(observed('18:53', 18, 220));
    fake.routes['/stations/KNEA/observations?'] = json(list(observed('18:30', 9, 200)));
    expect(times(await fake.source.read())).toEqual(['18:30', '18:53']);
  });
});

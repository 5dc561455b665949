// Readings over a real broker on this machine (aedes), over MQTT 3.1.1.

import { describe, expect, it } from 'vitest';
import { mqttStations } from '#sources/stations/mqtt.ts';
import { farm, listen, mast, publish, reading, startBroker, TOPIC } from './mqtt-harness.ts';

const times = (reading: { observations: readonly { observation: { observedAtMs: number } }[] }) =>
  reading.observations.map(({ observation }) =>
    new Date(observation.observedAtMs).toISOString().slice(11, 16),
  );

async function listening(stations = [mast()]) {
  const broker = await startBroker();
  const ears = listen(stations, [farm(`mqtt://127.0.0.1:${broker.port}`)]);
  await ears.up();
  return { ...broker, ...ears };
}

describe('readings over MQTT', () => {
  it('come by their topic, in the form in which they are posted', async () => {
    const { port, readings, clock } = await listening();
    await publish(port, reading('18:15', { windGust: '20 mph', relativeHumidity: '41 %' }));
    expect(await readings.next()).toEqual({
      stations: [],
      faults: [],
      observations: [
        {
          site: 'own/mill-bend',
          observation: expect.objectContaining({
            station: 'mast',
            observedAtMs: Date.UTC(2026, 2, 2, 18, 15),
            receivedAtMs: clock.nowMs(),
            wind: { kind: 'blowing', fromDeg: 210, speedMps: expect.closeTo(4.4704, 9) },
            relativeHumidityPct: 41,
            quality: 'unverified',
          }),
        },
      ],
    });
  });

  it('one topic may serve several sites, and one broker several topics', async () => {
    const { port, readings, states } = await listening([
      mast({ site: 'own/a' }),
      mast({ site: 'own/b' }),
      mast({ site: 'own/b', id: 'second', topic: 'pits/b/second' }),
    ]);
    expect(states.all[0]?.stations).toHaveLength(3);
    await publish(port, reading('18:15'));
    const sites = [await readings.next(), await readings.next()].map(
      ({ observations }) => observations[0]?.site,
    );
    expect(sites).toEqual(['own/a', 'own/b']);
    await publish(port, reading('18:16'), { topic: 'pits/b/second' });
    expect((await readings.next()).observations[0]?.observation.station).toBe('second');
  });

  it('a list is read one by one, in order of time, and one bad item loses nothing of the rest', async () => {
    const { port, readings } = await listening();
    await publish(port, { observations: [reading('18:16'), { time: 'x' }, reading('18:15')] });
    const told = await readings.next();
    expect(times(told)).toEqual(['18:15', '18:16']);
    expect(told.faults).toMatchObject([
      { kind: 'refused', where: 'time', site: 'own/mill-bend', station: 'mast' },
    ]);
  });

  it('what comes twice is the same reading twice, with the same key of station and time', async () => {
    const { port, readings } = await listening();
    await publish(port, reading('18:15'));
    await publish(port, reading('18:15'), { dup: true });
    const both = [await readings.next(), await readings.next()];
    const keys = both.map(({ observations }) => [
      observations[0]?.observation.station,
      observations[0]?.observation.observedAtMs,
    ]);
    expect(keys[0]).toEqual(keys[1]);
  });

  it('a retained message is an old reading: its own time counts', async () => {
    const { port } = await startBroker();
    await publish(port, reading('06:00'), { retain: true });
    const ears = listen([mast()], [farm(`mqtt://127.0.0.1:${port}`)]);
    const told = await ears.readings.next();
    expect(times(told)).toEqual(['06:00']);
    expect(told.observations[0]?.observation.receivedAtMs).toBe(ears.clock.nowMs());
  });

  it('one without a time is refused: nobody can say how old it is', async () => {
    const { port, readings } = await listening();
    await publish(port, { windSpeed: '10 mph', windDirection: 210 }, { retain: true });
    expect(await readings.next()).toMatchObject({
      observations: [],
      faults: [{ kind: 'refused', where: 'time' }],
    });
  });

  it.each([
    ['no JSON', '{"time":', 'no-json'],
    ['no text', new Uint8Array([0xff, 0xfe, 0x00]), 'no-json'],
    ['an empty message', '', 'no-json'],
    ['a number', '7', 'no-reading'],
    ['an empty list', '[]', 'no-reading'],
    ['nested beyond sense', '['.repeat(30_000) + ']'.repeat(30_000), 'refused'],
    ['more than 64 KiB', 'x'.repeat(70_000), 'too-large'],
    ['of another station', reading('18:15', { station: 'other' }), 'refused'],
    ['from the future', reading('18:26'), 'refused'],
  ])('%s is a fault, and the next one is read', async (_, body, kind) => {
    const { port, readings } = await listening();
    await publish(port, body as string);
    const told = await readings.next();
    expect(told.observations).toEqual([]);
    expect(told.faults.map((fault) => fault.kind)).toEqual([kind]);
    await publish(port, reading('18:15', { station: 'mast' }));
    expect(times(await readings.next())).toEqual(['18:15']);
  });

  it('of other topics are not heard', async () => {
    const { port, readings } = await listening();
    await publish(port, reading('18:15'), { topic: `${TOPIC}/more` });
    await publish(port, reading('18:16'));
    expect(times(await readings.next())).toEqual(['18:16']);
  });

  it('are not told after it was closed', async () => {
    const { port, readings, states, listening: own } = await listening();
    await own.close();
    await publish(port, reading('18:15'));
    expect(readings.all).toEqual([]);
    expect(states.all).toHaveLength(1);
  });

  it('each broker has one connection, and without stations there is none', () => {
    const context = { brokers: [], nowMs: () => 0 } as never;
    const names = mqttStations([mast(), mast({ id: 'b' }), mast({ broker: 'mill' })], context).map(
      ({ name }) => name,
    );
    expect(names).toEqual(['mqtt farm', 'mqtt mill']);
    expect(mqttStations([], context)).toEqual([]);
  });
});

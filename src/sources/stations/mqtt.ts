// Stations that tell a broker, and we listen. One connection for each broker.

import type { BrokerSettings } from '#core/watch/station-source.ts';
import { keepTrying } from './keep-trying.ts';
import { connectOnce, type MqttLogin } from './mqtt-connection.ts';
import { readMessage } from './mqtt-message.ts';
import type {
  HeardObservations,
  ListeningState,
  SourceContext,
  SourceMaker,
  SourceStation,
} from './observation-source.ts';

export const mqttStations: SourceMaker = (stations, context) => {
  const byBroker = Map.groupBy(stations.filter(isMqtt), ({ source }) => source.broker);
  return [...byBroker].map(([id, served]) => {
    const broker = context.brokers.find((one) => one.id === id) ?? null;
    return makeMqttFeed(id, broker, served, context);
  });
};

type MqttStation = SourceStation & {
  readonly source: { readonly kind: 'mqtt'; readonly broker: string; readonly topic: string };
};

const isMqtt = (station: SourceStation): station is MqttStation => station.source.kind === 'mqtt';

function makeMqttFeed(
  id: string,
  broker: BrokerSettings | null,
  stations: readonly MqttStation[],
  context: SourceContext,
): HeardObservations {
  const byTopic = Map.groupBy(stations, ({ source }) => source.topic);
  return {
    way: 'heard',
    name: `mqtt ${id}`,
    listen(onReading, onState) {
      const tellState = (told: readonly MqttStation[], why: string | null) => {
        if (told.length > 0) onState(stateOf(told, why, context.nowMs()));
      };
      const login = broker && loginOf(broker, context.secret);
      if (broker === null || login === null || 'lacking' in login) {
        const lacking = login && 'lacking' in login ? login.lacking : 'no such broker is configured';
        tellState(stations, lacking);
        return { close: () => Promise.resolve() };
      }
      return keepTrying(
        (signal) =>
          connectOnce(
            broker.url,
            login,
            [...byTopic.keys()],
            {
              subscribed(refused) {
                const isRefused = ({ source }: MqttStation) => refused.includes(source.topic);
                tellState(
                  stations.filter((one) => !isRefused(one)),
                  null,
                );
                tellState(stations.filter(isRefused), 'the broker refuses the topic');
              },
              message(topic, payload) {
                for (const station of byTopic.get(topic) ?? []) {
                  onReading(readMessage(payload, station, context.nowMs()));
                }
              },
            },
            signal,
          ),
        (why) => tellState(stations, why),
        context,
      );
    },
  };
}

const stateOf = (stations: readonly MqttStation[], why: string | null, sinceMs: number): ListeningState => ({
  up: why === null,
  sinceMs,
  why,
  stations: stations.map(({ site, station }) => ({ site, station: station.id })),
});

/** The secrets, or which setting names a variable that is not set; never its name, which may be the secret by a slip. */
function loginOf(broker: BrokerSettings, secret: SourceContext['secret']): MqttLogin | { lacking: string } {
  const settings = ['usernameFrom', 'passwordFrom', 'certificatesFrom'] as const;
  const values = settings.map((setting) => {
    const name = broker[setting];
    return name === null ? null : secret(name) || undefined;
  });
  const lacking = settings.find((_, i) => values[i] === undefined);
  if (lacking) return { lacking: `the environment variable that ${lacking} names is not set` };
  const [username = null, password = null, certificates = null] = values;
  return { username, password, certificates };
}

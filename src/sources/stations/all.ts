// Every kind of source of observations. ADD ONE: its maker here. Stations whose readings are posted need none.

import { mqttStations } from './mqtt.ts';
import { nmeaStations } from './nmea-tcp.ts';
import { nwsStations } from './nws-stations.ts';
import type { ObservationSource, SourceContext, SourceMaker, SourceStation } from './observation-source.ts';

const MAKERS: readonly SourceMaker[] = [nwsStations, mqttStations, nmeaStations];

/** The sources of these stations. */
export const observationSources = (
  stations: readonly SourceStation[],
  context: SourceContext,
): ObservationSource[] => MAKERS.flatMap((make) => make(stations, context));

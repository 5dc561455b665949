// Names of official events by their codes, as the forecast grid flags them (NWS Instruction 10-1703, VTEC).

/** Phenomenon and significance → the event's name: those that concern burning, and others that an operator may list. */
const EVENT_OF: Readonly<Record<string, string>> = {
  'FW.W': 'Red Flag Warning',
  'FW.A': 'Fire Weather Watch',
  'EW.W': 'Extreme Wind Warning',
  'HW.W': 'High Wind Warning',
  'HW.A': 'High Wind Watch',
  'WI.Y': 'Wind Advisory',
  'LW.Y': 'Lake Wind Advisory',
  'HU.W': 'Hurricane Warning',
  'HU.A': 'Hurricane Watch',
  'TR.W': 'Tropical Storm Warning',
  'TR.A': 'Tropical Storm Watch',
  'SV.W': 'Severe Thunderstorm Warning',
  'SV.A': 'Severe Thunderstorm Watch',
  'TO.W': 'Tornado Warning',
  'TO.A': 'Tornado Watch',
  'DS.W': 'Dust Storm Warning',
  'DS.Y': 'Dust Advisory',
  'DU.W': 'Blowing Dust Warning',
  'DU.Y': 'Blowing Dust Advisory',
  'SM.Y': 'Dense Smoke Advisory',
  'AS.Y': 'Air Stagnation Advisory',
  'AQ.Y': 'Air Quality Alert',
  'FG.Y': 'Dense Fog Advisory',
  'BZ.W': 'Blizzard Warning',
  'WS.W': 'Winter Storm Warning',
  'WS.A': 'Winter Storm Watch',
  'WW.Y': 'Winter Weather Advisory',
  'IS.W': 'Ice Storm Warning',
  'SQ.W': 'Snow Squall Warning',
  'FF.W': 'Flash Flood Warning',
  'FF.A': 'Flash Flood Watch',
};

/** Null where the code is not known here. */
export const eventOfVtec = (phenomenon: string | null, significance: string | null): string | null =>
  EVENT_OF[`${phenomenon}.${significance}`.toUpperCase()] ?? null;

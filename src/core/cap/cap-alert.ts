// A message of the Common Alerting Protocol 1.2 (OASIS Standard, 1 July 2010) as plain data: words of the standard, values
// that it lists. How it is written as XML is not known here.

export type MsgType = 'Alert' | 'Update' | 'Cancel';
export type Category = 'Met' | 'Fire' | 'Env' | 'Safety' | 'Other';
export type Urgency = 'Immediate' | 'Expected' | 'Future' | 'Past' | 'Unknown';
export type Severity = 'Extreme' | 'Severe' | 'Moderate' | 'Minor' | 'Unknown';
export type Certainty = 'Observed' | 'Likely' | 'Possible' | 'Unlikely' | 'Unknown';
export type ResponseType = 'Prepare' | 'Execute' | 'Monitor' | 'AllClear' | 'None';

export interface CapTerms {
  readonly categories: readonly Category[];
  readonly urgency: Urgency;
  readonly severity: Severity;
  readonly certainty: Certainty;
  readonly responseType: ResponseType;
}

/** What names a message for others that refer to it; `sent` as it was written, never formatted anew. */
export interface CapReference {
  readonly sender: string;
  readonly identifier: string;
  readonly sent: string;
}

export interface CapCircle {
  /** Latitude, longitude [deg]. */
  readonly at: readonly [number, number];
  readonly radiusKm: number;
}

export interface CapArea {
  readonly areaDesc: string;
  /** Latitude, longitude [deg]; the last is the first. */
  readonly polygons: readonly (readonly (readonly [number, number])[])[];
  readonly circles: readonly CapCircle[];
}

export interface CapInfo extends CapTerms {
  /** RFC 3066, such as en-US. */
  readonly language: string;
  readonly event: string;
  /** Null: at once. */
  readonly onset: string | null;
  readonly expires: string;
  readonly senderName: string;
  readonly headline: string;
  readonly description: string;
  readonly instruction: string;
  readonly contact: string | null;
  readonly parameters: readonly (readonly [name: string, value: string])[];
  readonly areas: readonly CapArea[];
}

export interface CapAlert extends CapReference {
  readonly status: string;
  readonly msgType: string;
  readonly scope: string;
  readonly restriction: string | null;
  readonly addresses: readonly string[];
  readonly note: string | null;
  readonly references: readonly CapReference[];
  readonly incidents: readonly string[];
  readonly infos: readonly CapInfo[];
}

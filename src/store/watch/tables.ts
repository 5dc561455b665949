// The tables of the watch, as the query layer sees them. `body` is the whole record as JSON; columns beside it are what it
// is found by. Truths are 0 and 1. A change here needs a migration (src/store/migrations).

export interface WatchTables {
  /** Version of what is known of each site's watch: whoever writes from what it read writes only where that is the newest. */
  watches: {
    site: string;
    version: number;
    judgedAtMs: number | null;
    /** Every condition as it stood then, as JSON without what is null. */
    stood: string | null;
  };
  burnTaps: {
    site: string;
    id: string;
    burn: string;
    tap: string;
    tappedAtMs: number;
    receivedAtMs: number;
    tappedBy: string;
    tappedFrom: string;
    corrects: string | null;
    withdraws: number;
    note: string;
  };
  burns: { site: string; id: string; openedAtMs: number; closedAtMs: number | null; body: string };
  burnIncidents: {
    site: string;
    id: string;
    burn: string;
    atMs: number;
    reference: string | null;
    by: string;
  };
  /** Winds that the crew of a burn has acknowledged. */
  briefings: { site: string; id: string; burn: string; atMs: number; body: string };
  observations: {
    site: string;
    station: string;
    observedAtMs: number;
    revision: number;
    receivedAtMs: number;
    body: string;
  };
  notices: { key: string; site: string; phase: string; episode: string; steppedAtMs: number; body: string };
  transitions: {
    notice: string;
    episode: string;
    number: number;
    site: string;
    atMs: number;
    /** The message that told it, and which of its parts it is; null where it was told by none. */
    message: string | null;
    part: number | null;
    body: string;
  };
  messages: {
    id: string;
    site: string;
    kind: string;
    atMs: number;
    validUntilMs: number;
    /** When nothing more was to be done about it. */
    closedAtMs: number | null;
    body: string;
  };
  deliveries: {
    id: string;
    message: string;
    site: string;
    contact: string;
    step: number;
    way: number;
    repeat: number;
    channel: string;
    address: string;
    asked: number;
    /** JSON. */
    parts: string;
    urgency: number;
    dueAtMs: number;
    notBeforeMs: number | null;
    validUntilMs: number;
    triedAtMs: number | null;
    tries: number;
    /** Who claimed it last, under which token, and until when it is theirs. */
    worker: string | null;
    token: number;
    leaseUntilMs: number | null;
    outcome: string | null;
    settledAtMs: number | null;
    detail: string | null;
    /** The words that were sent. */
    said: string | null;
    /** When the network said that it had arrived; null: it has not said so. */
    deliveredAtMs: number | null;
  };
  /** What networks said of texts; `delivery` is null until the text is known. */
  receipts: {
    channel: string;
    reference: string;
    state: string;
    code: string | null;
    atMs: number;
    delivery: string | null;
  };
  answers: {
    id: string;
    message: string;
    site: string;
    contact: string;
    said: string;
    via: string;
    atMs: number;
    receivedAtMs: number;
  };
  silences: { id: string; site: string; untilMs: number; endedAtMs: number | null; body: string };
  optOuts: { organisation: string; contact: string; address: string; optedOutAtMs: number; word: string };
  dayTexts: { site: string; date: string; kind: string; atMs: number; message: string; body: string };
  /** Shared by all processes; never told. */
  secrets: { name: string; value: string };
}

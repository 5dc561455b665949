// The tables of published messages, as the query layer sees them. A change here needs a migration (src/store/migrations).

export interface CapTables {
  capFeeds: {
    organisation: string;
    /** Up to which position of the log of events. */
    position: number;
    /** Rises with every writing: of two who made the same messages one is told that the other came first. */
    round: number;
  };
  capMessages: {
    organisation: string;
    id: string;
    /** Place in its chain, from 1. */
    number: number;
    site: string;
    chain: string;
    sender: string;
    sent: string;
    sentMs: number;
    expiresMs: number;
    headline: string;
    summary: string;
    /** 0 and 1. */
    ends: number;
    isLast: number;
    /** JSON: what it was made from, to tell the same again. */
    told: string;
    /** The message itself. */
    body: string;
  };
}

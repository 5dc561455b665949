// What the service tells of its own state at each scrape of /metrics: plain figures, read at that moment and cheaply.

export interface GaugeReadings {
  /** Since the start of the process. `outcome` is `good`, `unchanged`, or the code of the fault: a closed list. */
  readonly pulls: readonly {
    readonly kind: 'grid' | 'alerts' | 'point';
    readonly outcome: string;
    readonly count: number;
  }[];
  /** Since the start of the process: pulls of each cell that failed, by the code of the fault. */
  readonly cellFailures: readonly { readonly cell: string; readonly code: string; readonly count: number }[];
  /** Each host and kind of resource asked by this process, and whether it is left alone after failures in a row. */
  readonly source: readonly { readonly host: string; readonly kind: string; readonly leftAlone: boolean }[];
  /** Since each cell that sites lie in was last asked for, good or not; null: never. */
  readonly pullAgesS: readonly (number | null)[];
  /** Cells of these whose last pull failed. */
  readonly cellsFailing: number;
  /** The same by the code of that fault. */
  readonly cellsFailingBy: readonly { readonly code: string; readonly count: number }[];
  /** Every site is as fresh as its periods ask: what a watchdog elsewhere is told. */
  readonly roundWhole: boolean;
  /** Each cell that sites lie in: age of its document since it was made; null where there is none. */
  readonly forecasts: readonly { readonly cell: string; readonly ageS: number | null }[];
  /** Age of each place's list of official alerts since it was read; null: never read. */
  readonly alertAgesS: readonly (number | null)[];
  readonly sites: Readonly<Record<'fresh' | 'aging' | 'stale' | 'none', number>>;
  /** Of these, the ones whose shift lasts or begins within three hours. */
  readonly sitesNearShift: GaugeReadings['sites'];
  /** Since the start of the process. */
  readonly plansMade: number;
  readonly eventsMade: number;
  /** Null: this process keeps nothing. */
  readonly store: {
    readonly kind: 'sqlite' | 'postgres';
    /** Whether it did what it was last asked. */
    readonly healthy: boolean;
    readonly bytes: number | null;
  } | null;
  /** Since what is held in memory was last known to be the store's; null: this process reads no store. */
  readonly mirrorAgeS: number | null;
  /** Work of this process; null where it does none. */
  readonly queue: { readonly waiting: number; readonly running: number } | null;
  readonly liveKeys: number;
  readonly watch: WatchGauges;
}

export interface WatchGauges {
  /** What is open now; null where the store cannot say in time. */
  readonly open: {
    readonly burns: number;
    /** Every code, also those of which none is open. */
    readonly notices: readonly { readonly code: string; readonly count: number }[];
    readonly silentStations: number;
    readonly deliveries: Readonly<Record<'waiting' | 'sending', number>>;
    /** Due within a day, by whomever: those that did not arrive, or of which nobody knows. */
    readonly undelivered: readonly { readonly outcome: string; readonly count: number }[];
    /** Since the oldest that waits was due; 0 where none waits. */
    readonly oldestDeliveryS: number;
  } | null;
  /** Of this process since its start: each channel of the configuration with each outcome. */
  readonly delivered: readonly {
    readonly channel: string;
    readonly outcome: string;
    readonly count: number;
  }[];
  /** The longest that a text of this process was under way, from when it was due. */
  readonly slowestDeliveryS: number;
  /** Texts of this process that went out in fixed words, since their own could not be made. */
  readonly unworded: number;
  readonly channels: readonly { readonly channel: string; readonly works: boolean }[];
}

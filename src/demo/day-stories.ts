// What a day of the demonstration reads, hour by hour on the local clock. Invented figures, in the whole knots, feet and
// percent that forecasters edit; the verdicts that they lead to are fixed by tests/demo against config/demo.yaml.

export interface DayStory {
  /** Each list has one value per local hour, 0 … 23. */
  readonly windKt: readonly number[];
  readonly gustKt: readonly number[];
  /** Where the wind comes from, multiples of 10. */
  readonly fromDeg: readonly number[];
  readonly humidityPct: readonly number[];
  readonly mixingFt: readonly number[];
  readonly transportKt: readonly number[];
  /** From the day's mean temperature to its extremes [°F]. */
  readonly swingF: number;
  readonly skyPct: number;
  readonly sky: 'clear' | 'morning fog' | 'showers';
}

/** Good from 9:00; gusts end it in mid-afternoon, and an hour later the wind turns from south-west to north-west. */
const turningWind: DayStory = {
  windKt: [3, 3, 3, 3, 3, 3, 3, 4, 4, 5, 6, 7, 8, 8, 9, 12, 14, 12, 9, 7, 5, 4, 4, 3],
  gustKt: [5, 5, 5, 5, 5, 5, 5, 7, 8, 10, 12, 13, 14, 15, 17, 22, 25, 21, 16, 12, 9, 7, 6, 5],
  fromDeg: [
    190, 190, 190, 190, 190, 190, 190, 200, 200, 200, 200, 210, 210, 210, 210, 230, 300, 310, 310, 310, 320,
    290, 250, 220,
  ],
  humidityPct: [
    87, 88, 89, 90, 91, 92, 91, 85, 74, 62, 58, 54, 49, 45, 42, 40, 41, 46, 54, 61, 67, 73, 79, 83,
  ],
  mixingFt: [
    300, 300, 300, 300, 300, 300, 300, 600, 1200, 2200, 2800, 3400, 3900, 4300, 4500, 4600, 4300, 3000, 1200,
    500, 300, 300, 300, 300,
  ],
  transportKt: [6, 6, 6, 6, 6, 6, 6, 8, 10, 12, 13, 14, 15, 16, 18, 22, 24, 22, 17, 13, 10, 8, 7, 6],
  swingF: 13,
  skyPct: 25,
  sky: 'clear',
};

/** Smoke would stay low until 11:00; good from then on. */
const lowMorning: DayStory = {
  windKt: [3, 3, 2, 2, 2, 3, 3, 4, 4, 5, 5, 6, 7, 7, 8, 8, 7, 6, 5, 4, 4, 3, 3, 3],
  gustKt: [5, 5, 4, 4, 4, 5, 5, 6, 6, 8, 8, 10, 11, 12, 13, 13, 12, 10, 8, 6, 6, 5, 5, 5],
  fromDeg: [
    300, 300, 300, 300, 300, 300, 300, 300, 300, 310, 310, 310, 310, 310, 310, 300, 300, 300, 300, 300, 300,
    300, 300, 300,
  ],
  humidityPct: [
    94, 95, 95, 96, 96, 96, 96, 95, 92, 87, 77, 70, 63, 57, 53, 50, 52, 60, 70, 78, 84, 88, 91, 93,
  ],
  mixingFt: [
    200, 200, 200, 200, 200, 200, 200, 200, 500, 900, 1300, 2000, 2700, 3200, 3500, 3500, 3000, 1800, 600,
    300, 200, 200, 200, 200,
  ],
  transportKt: [5, 5, 5, 5, 5, 5, 5, 6, 7, 8, 9, 10, 11, 12, 13, 13, 12, 10, 8, 7, 6, 5, 5, 5],
  swingF: 10,
  skyPct: 45,
  sky: 'morning fog',
};

/** Dry north wind day and night. */
const dryNorthWind: DayStory = {
  windKt: [15, 15, 15, 15, 15, 15, 16, 17, 18, 19, 20, 20, 20, 19, 19, 18, 18, 17, 16, 15, 15, 15, 15, 15],
  gustKt: [26, 26, 26, 26, 26, 27, 28, 29, 31, 33, 34, 34, 34, 33, 32, 31, 31, 29, 28, 27, 26, 26, 26, 26],
  fromDeg: [
    350, 350, 350, 350, 350, 350, 350, 350, 0, 0, 0, 10, 10, 10, 10, 10, 0, 0, 350, 350, 350, 350, 350, 350,
  ],
  humidityPct: [
    19, 20, 20, 21, 21, 21, 18, 16, 15, 14, 13, 12, 11, 10, 10, 10, 10, 11, 13, 15, 16, 17, 18, 19,
  ],
  mixingFt: [
    1500, 1500, 1500, 1500, 1500, 1500, 1700, 2200, 2900, 3600, 4300, 5000, 5600, 6000, 6200, 6100, 5600,
    4600, 3000, 2200, 1800, 1600, 1500, 1500,
  ],
  transportKt: [
    28, 28, 28, 28, 28, 29, 30, 32, 34, 36, 38, 38, 38, 37, 36, 35, 34, 32, 30, 29, 28, 28, 28, 28,
  ],
  swingF: 8,
  skyPct: 3,
  sky: 'clear',
};

/** A plain good day from 10:00. */
const fair: DayStory = {
  windKt: [3, 3, 3, 3, 3, 3, 3, 3, 4, 5, 6, 6, 7, 7, 8, 8, 7, 6, 5, 4, 3, 3, 3, 3],
  gustKt: [5, 5, 5, 5, 5, 5, 5, 5, 6, 8, 9, 10, 11, 12, 13, 13, 12, 10, 8, 6, 5, 5, 5, 5],
  fromDeg: [
    180, 180, 180, 180, 180, 180, 180, 180, 180, 190, 190, 190, 200, 200, 200, 200, 200, 200, 190, 190, 180,
    180, 180, 180,
  ],
  humidityPct: [
    84, 85, 86, 87, 88, 88, 88, 85, 79, 71, 64, 57, 51, 46, 43, 42, 43, 49, 58, 66, 72, 77, 80, 82,
  ],
  mixingFt: [
    300, 300, 300, 300, 300, 300, 300, 500, 900, 1500, 2200, 2900, 3500, 3900, 4200, 4200, 3700, 2500, 1000,
    400, 300, 300, 300, 300,
  ],
  transportKt: [5, 5, 5, 5, 5, 5, 6, 7, 8, 9, 10, 11, 12, 13, 13, 13, 12, 11, 9, 7, 6, 5, 5, 5],
  swingF: 12,
  skyPct: 20,
  sky: 'clear',
};

/** Hardly any wind: nobody can say where the smoke goes. */
const still: DayStory = {
  windKt: [0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 1, 1, 0, 0, 0, 0, 0],
  gustKt: [0, 0, 0, 0, 0, 0, 0, 2, 2, 3, 3, 4, 4, 5, 5, 5, 4, 3, 2, 0, 0, 0, 0, 0],
  fromDeg: [
    150, 150, 150, 150, 150, 150, 150, 140, 140, 160, 160, 180, 180, 190, 190, 190, 180, 160, 160, 150, 150,
    150, 150, 150,
  ],
  humidityPct: [
    86, 88, 89, 90, 91, 92, 92, 89, 82, 74, 67, 61, 56, 52, 50, 49, 51, 58, 66, 72, 77, 80, 83, 85,
  ],
  mixingFt: [
    100, 100, 100, 100, 100, 100, 100, 200, 500, 900, 1400, 1800, 2200, 2400, 2500, 2500, 2100, 1200, 400,
    200, 100, 100, 100, 100,
  ],
  transportKt: [2, 2, 2, 2, 2, 2, 2, 3, 3, 4, 4, 5, 5, 5, 5, 5, 5, 4, 3, 2, 2, 2, 2, 2],
  swingF: 12,
  skyPct: 12,
  sky: 'clear',
};

/** Wind over the crew's own figure through the working day, short of a stop. */
const breezy: DayStory = {
  windKt: [6, 6, 6, 6, 6, 6, 7, 9, 11, 11, 12, 12, 12, 12, 12, 12, 11, 11, 9, 8, 7, 7, 6, 6],
  gustKt: [10, 10, 10, 10, 10, 10, 12, 15, 18, 19, 20, 20, 20, 20, 20, 19, 19, 18, 15, 13, 11, 11, 10, 10],
  fromDeg: [
    190, 190, 190, 190, 190, 190, 190, 190, 200, 200, 200, 200, 200, 200, 200, 200, 200, 200, 190, 190, 190,
    190, 190, 190,
  ],
  humidityPct: [
    72, 73, 74, 75, 76, 76, 75, 71, 66, 60, 55, 50, 46, 43, 41, 41, 42, 47, 54, 60, 64, 67, 69, 71,
  ],
  mixingFt: [
    800, 800, 800, 800, 800, 800, 900, 1200, 1900, 2700, 3400, 4000, 4500, 4800, 5000, 4900, 4400, 3400, 2000,
    1200, 900, 800, 800, 800,
  ],
  transportKt: [
    12, 12, 12, 12, 12, 12, 13, 15, 18, 20, 22, 23, 24, 24, 24, 23, 22, 20, 17, 15, 13, 12, 12, 12,
  ],
  swingF: 10,
  skyPct: 35,
  sky: 'clear',
};

/** Damp air, showers and some thunder in the afternoon. */
const showers: DayStory = {
  windKt: [5, 5, 5, 5, 5, 5, 5, 6, 6, 6, 7, 7, 8, 8, 8, 8, 7, 7, 6, 6, 5, 5, 5, 5],
  gustKt: [8, 8, 8, 8, 8, 8, 8, 9, 10, 10, 12, 13, 14, 14, 15, 15, 13, 12, 10, 9, 8, 8, 8, 8],
  fromDeg: [
    170, 170, 170, 170, 170, 170, 170, 180, 180, 180, 190, 190, 190, 200, 200, 200, 210, 210, 210, 210, 210,
    210, 210, 210,
  ],
  humidityPct: [
    93, 93, 94, 94, 95, 95, 95, 94, 92, 90, 88, 86, 85, 84, 84, 85, 87, 89, 91, 92, 93, 93, 93, 93,
  ],
  mixingFt: [
    500, 500, 500, 500, 500, 500, 500, 700, 900, 1200, 1500, 1800, 2000, 2200, 2200, 2100, 1700, 1200, 800,
    600, 500, 500, 500, 500,
  ],
  transportKt: [8, 8, 8, 8, 8, 8, 9, 10, 11, 12, 13, 14, 14, 15, 15, 15, 14, 12, 11, 10, 9, 8, 8, 8],
  swingF: 5,
  skyPct: 88,
  sky: 'showers',
};

/** A lid over the valley: smoke stays low all day. */
const underALid: DayStory = {
  windKt: [3, 3, 3, 3, 3, 3, 3, 3, 4, 4, 4, 5, 5, 5, 5, 5, 5, 4, 4, 3, 3, 3, 3, 3],
  gustKt: [4, 4, 4, 4, 4, 4, 4, 5, 6, 6, 7, 8, 8, 8, 8, 8, 7, 6, 5, 4, 4, 4, 4, 4],
  fromDeg: [
    210, 210, 210, 210, 210, 210, 210, 210, 200, 200, 200, 200, 190, 190, 190, 190, 190, 200, 200, 210, 210,
    210, 210, 210,
  ],
  humidityPct: [
    96, 97, 97, 97, 98, 98, 98, 96, 93, 89, 85, 81, 78, 75, 74, 74, 76, 80, 85, 89, 92, 94, 95, 96,
  ],
  mixingFt: [
    200, 200, 200, 200, 200, 200, 200, 300, 400, 600, 800, 1000, 1200, 1300, 1400, 1300, 1100, 700, 400, 200,
    200, 200, 200, 200,
  ],
  transportKt: [4, 4, 4, 4, 4, 4, 4, 5, 5, 6, 6, 7, 7, 7, 7, 7, 6, 5, 5, 4, 4, 4, 4, 4],
  swingF: 6,
  skyPct: 72,
  sky: 'morning fog',
};

/** What today and tomorrow read, by site story. */
export const NEAR_DAYS = { turningWind, lowMorning, dryNorthWind } as const satisfies Record<
  string,
  DayStory
>;

export type StoryName = keyof typeof NEAR_DAYS;

/** What the days after tomorrow read, in turn; a date keeps its place as the days go by. */
export const FAR_DAYS: readonly DayStory[] = [fair, still, breezy, fair, showers, underALid];

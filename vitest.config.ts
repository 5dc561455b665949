import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** They set the clock of their process: each has one of its own. */
const OWN_PROCESS = [
  'tests/jobs/keep-fresh.test.ts',
  'tests/jobs/queue-postgres.test.ts',
  'tests/notify/webhook.test.ts',
];
/** They take both cores with processes of their own: spread over the run, so that no two stand in each other's way. */
const CROWDS = [
  'service/many-processes',
  'store/kill-the-writer',
  'service/rolling-restart',
  'cli/play',
  'store/kill-the-server',
  'cli/serve',
  'service/watch/killed',
];
/** They take longest; begun last, one core would wait for them. */
const LONG = [
  'browser/day-page',
  'browser/offline',
  'browser/settings',
  'browser/pages',
  'browser/signing-in',
  'wording/texts/every-text',
  'service/store-faults',
  'store/many-at-once',
  'page/agreement',
  'access/cookie-changes',
  'service/store-full',
  'play/play-day',
  'store/full-disk',
  'store/watch-seams',
  'store/faults-postgres',
];

const placeIn = (names: readonly string[], { moduleId }: TestSpecification): number =>
  names.findIndex((name) => moduleId.endsWith(`${name}.test.ts`));

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const crowds = sorted.filter((file) => placeIn(CROWDS, file) >= 0);
    crowds.sort((a, b) => placeIn(CROWDS, a) - placeIn(CROWDS, b));
    const isLong = (file: TestSpecification): boolean => placeIn(LONG, file) >= 0;
    const alone = sorted.filter((file) => placeIn(CROWDS, file) < 0);
    const rest = [...alone.filter(isLong), ...alone.filter((file) => !isLong(file))];
    // The first half of the queue holds the long ones: there few files go by while a crowd is at work.
    const gap = (i: number): number => Math.round((rest.length * i * i) / (crowds.length + 1) ** 2);
    if (rest.length === 0) return crowds;
    return rest.flatMap((file, at) => [...crowds.filter((_, i) => gap(i) === at), file]);
  }
}

const shared = {
  testTimeout: 60_000,
  hookTimeout: 90_000,
  setupFiles: ['tests/seed.ts'],
  // Days and clock hours must not depend on the machine: an absurd zone shows where they do.
  env: { TZ: 'Pacific/Chatham' },
};

// biome-ignore lint/style/noDefaultExport: vitest reads it so
export default defineConfig({
  test: {
    globalSetup: 'tests/postgres/setup.ts',
    pool: 'forks',
    // All cores: the long ones start processes of their own, and browsers, beside these.
    maxWorkers: '100%',
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        extends: true,
        test: {
          ...shared,
          name: 'shared',
          include: ['tests/**/*.test.ts'],
          exclude: OWN_PROCESS,
          // One process for many files: loading the program anew for each took a third of the time.
          isolate: false,
        },
      },
      { extends: true, test: { ...shared, name: 'own', include: OWN_PROCESS } },
    ],
  },
});

import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** They set the clock of their process: each has one of its own. */
const OWN_PROCESS = [
  'tests/jobs/keep-fresh.test.ts',
  'tests/jobs/queue-postgres.test.ts',
  'tests/notify/webhook.test.ts',
];
/** They take longest; begun last, one core would wait for them. */
const FIRST = [
  'service/many-processes',
  'store/kill-the-writer',
  'browser/day-page',
  'service/rolling-restart',
  'browser/pages',
  'wording/texts/every-text',
  'service/store-faults',
  'store/many-at-once',
  'cli/play',
  'page/agreement',
  'service/store-full',
  'play/play-day',
  'cli/serve',
  'store/kill-the-server',
  'store/full-disk',
  'store/watch-seams',
  'store/faults-postgres',
  'service/watch/killed',
];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification): number => {
      const found = FIRST.findIndex((name) => moduleId.endsWith(`${name}.test.ts`));
      return found < 0 ? FIRST.length : found;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}

const shared = {
  testTimeout: 60_000,
  hookTimeout: 90_000,
  // Days and clock hours must not depend on the machine: an absurd zone shows where they do.
  env: { TZ: 'Pacific/Chatham' },
};

// biome-ignore lint/style/noDefaultExport: vitest reads it so
export default defineConfig({
  test: {
    globalSetup: 'tests/postgres/setup.ts',
    pool: 'forks',
    // One more than cores: much of the time of the long ones is waiting.
    maxWorkers: availableParallelism() + 1,
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

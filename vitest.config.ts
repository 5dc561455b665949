import { defineConfig } from 'vitest/config';

// biome-ignore lint/style/noDefaultExport: vitest reads it so
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/postgres/setup.ts',
    testTimeout: 30_000,
    hookTimeout: 60_000,
    pool: 'forks',
    // All cores: much of the time of the long ones is waiting.
    maxWorkers: '100%',
    // Days and clock hours must not depend on the machine: an absurd zone shows where they do.
    env: { TZ: 'Pacific/Chatham' },
  },
});

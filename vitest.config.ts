import { defineConfig } from 'vitest/config';

// biome-ignore lint/style/noDefaultExport: vitest reads it so
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: 'tests/postgres/setup.ts',
    testTimeout: 30_000,
    hookTimeout: 60_000,
    pool: 'forks',
    // Days and clock hours must not depend on the machine: an absurd zone shows where they do.
    env: { TZ: 'Pacific/Chatham' },
  },
});

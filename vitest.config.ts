import { defineConfig } from "vitest/config";

/** Rooms that keep nothing between calls: their files share what they import, which takes half of their time otherwise. */
const pure = "src/{core,report,api}/**/*.test.{ts,tsx}";

export default defineConfig({
  test: {
    globalSetup: ["tools/make-heads.mjs"],
    reporters: ["default", "./tools/counting-reporter.mjs"],
    maxWorkers: 2,
    projects: [
      { test: { name: "pure", include: [pure], isolate: false, testTimeout: 20_000, hookTimeout: 60_000 } },
      {
        test: {
          name: "shop",
          include: ["src/**/*.test.{ts,tsx}", "tests/**/*.test.ts", "tools/**/*.test.mjs"],
          exclude: [pure],
          testTimeout: 20_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});

import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["src/**/*.test.{ts,tsx}", "tests/**/*.test.ts", "tools/**/*.test.mjs"],
    globalSetup: ["tools/make-heads.mjs"],
    reporters: ["default", "./tools/counting-reporter.mjs"],
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 60_000,
  },
});

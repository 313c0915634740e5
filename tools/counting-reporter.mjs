// Closes a test run with one plain line that any script can read: "N passed, N failed".
export default class CountingReporter {
  onTestRunEnd(modules) {
    let passed = 0;
    let failed = 0;
    let skipped = 0;
    for (const module of modules) {
      // A file that could not even be loaded counts as one failed test.
      if (module.errors().length > 0) failed += 1;
      for (const test of module.children.allTests()) {
        const state = test.result().state;
        if (state === "passed") passed += 1;
        else if (state === "failed") failed += 1;
        else skipped += 1;
      }
    }
    const line = `${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ""}`;
    process.on("exit", () => console.log(line));
  }
}

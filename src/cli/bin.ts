#!/usr/bin/env node
import { run } from "./main.ts";

// Whoever reads only the first lines (`| head`) closes the pipe: that is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});

process.exitCode = await run(process.argv.slice(2));

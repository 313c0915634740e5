// The house's arrows (ARCHITECTURE.md): who may import whom, and that nothing goes round in a circle.
import { cruise } from "dependency-cruiser";

const mayImport = {
  core: ["core"],
  api: ["api", "core"],
  store: ["store", "api", "core"],
  report: ["report", "core"],
  server: ["server", "store", "report", "api", "core"],
  web: ["web", "api", "report", "core"],
  cli: ["cli", "server", "store", "report", "api", "core"],
};
/** Inside core, step by step: a room imports from earlier steps, never from its neighbour on the same step. */
const coreSteps = [
  ["numeric"],
  ["statistics", "vision", "heat", "coating"],
  ["rating", "climate", "bath"],
  ["line", "part"],
  ["trial"],
];

const rules = Object.entries(mayImport).map(([room, allowed]) => ({
  name: `${room}-imports-only-${allowed.join("-")}`,
  severity: "error",
  from: { path: `^src/${room}/` },
  to: { path: "^src/", pathNot: `^src/(${allowed.join("|")})/` },
}));
coreSteps.forEach((step, at) => {
  const earlier = coreSteps.slice(0, at).flat();
  for (const room of step)
    rules.push({
      name: `core-${room}-imports-only-earlier-steps`,
      severity: "error",
      from: { path: `^src/core/${room}/` },
      to: { path: "^src/core/[^/]+/", pathNot: `^src/core/(${[room, ...earlier].join("|")})/` },
    });
});
rules.push(
  {
    name: "core-and-api-import-no-node-module",
    severity: "error",
    from: { path: "^src/(core|api)/", pathNot: "\\.test\\." },
    to: { dependencyTypes: ["core"] },
  },
  { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
);

export async function wrongArrows() {
  const { output } = await cruise(
    ["src"],
    { ruleSet: { forbidden: rules }, validate: true, tsPreCompilationDeps: true, doNotFollow: "node_modules" },
    {
      exportsFields: ["exports"],
      conditionNames: ["import", "node", "default"],
      extensions: [".ts", ".tsx", ".js", ".mjs"],
    },
  );
  if (output.summary.totalCruised < 5) throw new Error("the arrows were not checked: hardly any file was seen");
  return output.summary.violations.map(
    (one) => `${one.from} -> ${one.to}: ${one.rule.name} (see ARCHITECTURE.md, the house)`,
  );
}

if (process.argv[1]?.endsWith("arrows.mjs")) {
  const wrong = await wrongArrows();
  for (const line of wrong) console.error(line);
  if (wrong.length > 0) process.exit(1);
}

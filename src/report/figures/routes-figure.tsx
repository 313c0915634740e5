/**
 * Routes side by side. What all share is one thin line of rungs; only the steps in which they differ stand out,
 * since that difference is what the trial tests.
 */
import type { CSSProperties } from "react";
import { type AlignedRoutes, alignRoutes, type LaidStep, type RouteToLay } from "./align-routes.ts";

const soft = "var(--ink-soft, #5c5f63)";
const line = "var(--line-strong, #b9b2a3)";

const styles = {
  shared: { color: soft, margin: "0 0 12px" },
  table: { borderCollapse: "collapse", width: "100%", fontVariantNumeric: "tabular-nums" },
  name: { textAlign: "left", fontWeight: 600, padding: "8px 12px 4px 0", verticalAlign: "top", minWidth: "7em" },
  cell: { padding: "8px 10px 8px 0", verticalAlign: "top" },
  row: { borderTop: `1px solid ${line}` },
  step: {
    display: "inline-block",
    border: "1.5px solid currentColor",
    borderRadius: 4,
    padding: "2px 8px",
    background: "var(--plate, #ffffff)",
    fontWeight: 600,
  },
  chip: { display: "inline-flex", flexDirection: "column", alignItems: "flex-start", margin: "0 12px 8px 0" },
  together: { borderStyle: "double", borderWidth: 4, padding: "0 6px" },
  nothing: { color: soft },
  head: { color: soft, fontWeight: 400, textAlign: "left", padding: "4px 10px 4px 0", verticalAlign: "bottom" },
} satisfies Record<string, CSSProperties>;

export function RoutesFigure({ routes, label }: { routes: readonly RouteToLay[]; label: string }) {
  const laid = alignRoutes(routes);
  return (
    <figure className="routes-figure" aria-label={label} style={{ margin: 0 }}>
      <p style={styles.shared}>{sharedSentence(laid)}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: keyboards must be able to scroll what is wider than a phone */}
      <section style={{ overflowX: "auto" }} aria-label={label} tabIndex={0}>
        <table style={styles.table}>
          {laid.differing.length > 0 && (
            <thead>
              <tr>
                <td className="routes-corner" />
                {laid.differing.map((place) => (
                  <th key={place} scope="col" style={styles.head}>
                    {placeName(laid, place)}
                  </th>
                ))}
              </tr>
            </thead>
          )}
          <tbody>
            {laid.own.map((own) => (
              <tr key={own.treatment} style={styles.row}>
                <th scope="row" style={styles.name}>
                  {own.treatment}
                </th>
                {laid.differing.map((place) => (
                  <td key={place} style={styles.cell}>
                    <OwnSteps steps={own.between[place]!} />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </figure>
  );
}

function OwnSteps({ steps }: { steps: readonly LaidStep[] }) {
  if (steps.length === 0) return <span style={styles.nothing}>nothing</span>;
  return steps.map((step, at) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: the same step may stand twice; only its place tells them apart
    <span key={`${at} ${step.name}`} style={styles.chip}>
      <span style={step.treated === "together" ? { ...styles.step, ...styles.together } : styles.step}>
        {step.name}
      </span>
      <small style={styles.nothing}>{step.treated === "alone" ? "each by itself" : "all in one go"}</small>
    </span>
  ));
}

function sharedSentence({ shared, own, differing }: AlignedRoutes): string {
  if (own.length < 2) return "One treatment alone: nothing to set beside it.";
  const same = shared.length === 0 ? "They share no step." : `Shared by all: ${shared.join(" → ")}.`;
  return differing.length === 0 ? `${same} The routes do not differ in any step: nothing is tested.` : same;
}

function placeName({ shared }: AlignedRoutes, place: number): string {
  if (shared.length === 0) return "route";
  return place === 0 ? `before ${shared[0]}` : `after ${shared[place - 1]}`;
}

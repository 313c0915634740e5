/**
 * Which cut a film on steel asks for, by both standards: a lattice and how far apart, or an X.
 *
 * Units    thicknessUm in µm; spacing in mm; cuts each way
 * Source   ASTM D3359 methods A and B, ISO 2409 on a hard substrate (secondary copies)
 * Status   published
 */
import { requirePositive } from "../input-error.ts";
import { crossCutSpacing, iso2409Spacings } from "./cross-cut.ts";

type Lattice = { form: "cross-cut"; spacingMm: number; cuts: number };
/** ISO 2409 has no X and says nothing of thicker films: null. */
export type ProposedCut = { d3359: Lattice | { form: "x-cut" }; iso2409: Lattice | null };

/** ASTM D3359: lattices (method B) up to so thick, an X (method A) above it unless a wider lattice is agreed on. µm. */
const latticeUpToUm = 125;

/** A proposal, not an order: what is agreed on goes first. Refuses a thickness of 0 or less. */
export function proposedCut(thicknessUm: number): ProposedCut {
  requirePositive("thicknessUm", thicknessUm);
  const lattice = (standard: "ASTM D3359" | "ISO 2409"): Lattice => ({
    form: "cross-cut",
    ...crossCutSpacing({ thicknessUm, standard, substrate: "hard" }),
  });
  return {
    d3359: thicknessUm <= latticeUpToUm ? lattice("ASTM D3359") : { form: "x-cut" },
    iso2409: iso2409Spacings.some(({ upToUm }) => thicknessUm <= upToUm) ? lattice("ISO 2409") : null,
  };
}

/** What each class of the tape test looks like, drawn by rule: what came off is hatched along the cuts. */
import type { TapeClass } from "../../core/rating/tape-classes.ts";
import { latticeLoss, xCutLoss } from "./tape-class-drawing.ts";

export function TapeClassFigure({ tapeClass }: { tapeClass: TapeClass }) {
  const lattice = tapeClass.endsWith("B");
  const step = Number(tapeClass[0]);
  return (
    <svg className="tape-figure" viewBox="0 0 60 60" aria-hidden="true">
      <defs>
        <pattern id="came-off" width="3" height="3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="1" x2="1" y2="3" className="tape-hatch" />
        </pattern>
      </defs>
      <rect className="tape-paint" x="1" y="1" width="58" height="58" />
      {(lattice ? latticeLoss(step) : xCutLoss(step)).map((path) => (
        <path key={path} className="tape-loss" d={path} />
      ))}
      <path className="tape-cut" d={lattice ? latticeCuts : xCuts} />
    </svg>
  );
}

const xCuts = "M14 6L46 54M46 6L14 54";
const latticeLines = [10, 18, 26, 34, 42, 50];
const latticeCuts = latticeLines.map((at) => `M${at} 5V55M5 ${at}H55`).join("");

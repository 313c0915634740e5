/** Where the rust spots lie on the coupon, each as a circle of its area, and how many there are of each size. */
import type { Measurement } from "../../api/photo.ts";
import { inspectText } from "../text/inspect.ts";

export function SpotsFigure({ measurement }: { measurement: Measurement }) {
  const { spots, request } = measurement;
  if (!spots || spots.count === 0) return null;
  const { lengthMm, widthMm } = request.sizeMm;
  const band = request.edgeBandMm;
  return (
    <details className="more spots">
      <summary>{inspectText.spots(spots.count)}</summary>
      <svg viewBox={`-1 -1 ${lengthMm + 2} ${widthMm + 2}`} role="img" aria-label={inspectText.spotsMap}>
        <rect className="spots-coupon" width={lengthMm} height={widthMm} rx="1" />
        <rect className="spots-face" x={band} y={band} width={lengthMm - 2 * band} height={widthMm - 2 * band} />
        {spots.largest.map(({ xMm, yMm, diameterMm }) => (
          <circle key={`${xMm} ${yMm}`} className="spots-spot" cx={xMm} cy={yMm} r={Math.max(diameterMm / 2, 0.3)} />
        ))}
      </svg>
      {spots.largest.length < spots.count && (
        <p className="hint">{inspectText.spotsDrawn(spots.largest.length, spots.count)}</p>
      )}
      <dl className="grades">
        {spots.byClass.map(({ fromMm, count }, at) => (
          <div key={fromMm}>
            <dt>{inspectText.spotClass(fromMm, spots.byClass[at + 1]?.fromMm ?? null)}</dt>
            <dd>{count}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

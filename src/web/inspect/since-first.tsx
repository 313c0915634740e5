/** What rusted since the face's first photograph: percent and outline beside the percentage, with its limits in words. */
import type { Measurement } from "../../api/photo.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { inspectText } from "../text/inspect.ts";
import { dateText } from "../text/parts.ts";
import type { FirstPhotograph } from "./earlier-photographs.ts";
import { pictureUrl } from "./measuring.ts";
import { notCompared } from "./not-compared.ts";

export function SinceFirst({ measurement, first }: { measurement: Measurement; first: FirstPhotograph | null }) {
  const { rustSince, request } = measurement;
  if (!rustSince) {
    const why = notCompared(first, measurement);
    return why && <p className="hint">{why}</p>;
  }
  const { rustedPercent, edgePercent, overlay } = rustSince;
  const { lengthMm, widthMm } = request.sizeMm;
  return (
    <section className="since">
      <h2>{inspectText.since(first && dateText(first.date))}</h2>
      <div className="since-parts">
        <div>
          <p className="since-percent">
            {rustedPercent === 0 ? inspectText.sinceNone : inspectText.sinceCame(percentText(rustedPercent))}
          </p>
          {edgePercent !== null && <p>{inspectText.sinceEdge(percentText(edgePercent))}</p>}
        </div>
        {overlay && (
          <img
            style={{ aspectRatio: `${lengthMm} / ${widthMm}` }}
            src={pictureUrl(overlay, 640)}
            alt={inspectText.sinceAlt}
            loading="lazy"
          />
        )}
      </div>
      {first === null && <p className="hint">{inspectText.sinceNoneOlder}</p>}
      <p className="hint">{inspectText.sinceLimits}</p>
    </section>
  );
}

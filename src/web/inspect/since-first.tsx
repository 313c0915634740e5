/** What rusted since the face's first photograph: percent and outline beside the percentage, with its limits in words. */
import type { Measurement } from "../../api/photo.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { inspectText } from "../text/inspect.ts";
import { dateText } from "../text/parts.ts";
import { pictureUrl } from "./measuring.ts";

export function SinceFirst({ measurement, first }: { measurement: Measurement; first: string | null }) {
  const { rustSince, card, byHand, request } = measurement;
  if (!rustSince) {
    const why = notCompared(first, { hasCard: Boolean(card), isCorrected: byHand !== null, asked: request.first });
    return why && <p className="hint">{why}</p>;
  }
  const { rustedPercent, edgePercent, overlay } = rustSince;
  const { lengthMm, widthMm } = request.sizeMm;
  return (
    <section className="since">
      <h2>{inspectText.since(first && dateText(first))}</h2>
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
      <p className="hint">{inspectText.sinceLimits}</p>
    </section>
  );
}

/** Why there is no such number; null where nothing needs to be said. */
function notCompared(
  first: string | null,
  { hasCard, isCorrected, asked }: { hasCard: boolean; isCorrected: boolean; asked: string | undefined },
): string | null {
  // A hand's correction is of the percentage; what it would mean for the comparison nobody can tell.
  if (isCorrected || asked) return null;
  if (first === null) return hasCard ? inspectText.isFirst : null;
  return hasCard ? inspectText.sinceNot(dateText(first)) : inspectText.sinceByHand(dateText(first));
}

/** Larger and smaller, a millimetre at a time; a box along and across by itself. */
import { placesText } from "../text/places.ts";
import { boundsOf, isBox, type Polygon } from "./places.ts";

type By = { alongMm: number; acrossMm: number };

export function PlaceSize({ polygon, onGrow }: { polygon: Polygon; onGrow: (by: By) => void }) {
  const { lengthMm, widthMm } = boundsOf(polygon);
  const both = (mm: number) => ({ alongMm: mm, acrossMm: mm });
  if (!isBox(polygon))
    return (
      <div className="place-size">
        <Stepper name={placesText.across} mm={lengthMm} onStep={(mm) => onGrow(both(mm))} />
      </div>
    );
  return (
    <div className="place-size">
      <Stepper name={placesText.long} mm={lengthMm} onStep={(mm) => onGrow({ alongMm: mm, acrossMm: 0 })} />
      <Stepper name={placesText.wide} mm={widthMm} onStep={(mm) => onGrow({ alongMm: 0, acrossMm: mm })} />
    </div>
  );
}

function Stepper({ name, mm, onStep }: { name: string; mm: number; onStep: (mm: number) => void }) {
  return (
    <div className="stepper">
      <button type="button" className="second" aria-label={placesText.less(name)} onClick={() => onStep(-1)}>
        −
      </button>
      <span aria-live="polite">
        {name} {mm.toFixed(0)} mm
      </span>
      <button type="button" className="second" aria-label={placesText.more(name)} onClick={() => onStep(1)}>
        +
      </button>
    </div>
  );
}

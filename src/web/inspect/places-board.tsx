/** The coupon cut out straight with what is left out of it: a tap puts a place or a corner, rings drag them. */
import { type MouseEvent, useRef } from "react";
import type { Measurement } from "../../api/photo.ts";
import { placesText } from "../text/places.ts";
import { toMm } from "./brush.ts";
import type { SizeMm } from "./corner-geometry.ts";
import { DragRing } from "./drag-ring.tsx";
import { pictureUrl } from "./measuring.ts";
import { boundsOf, insideOf, type Places, type PointMm, placeMoved } from "./places.ts";

export type PlaceTool = "round" | "box" | "outline" | "contact";

export function PlacesBoard(props: {
  measurement: Measurement;
  places: Places;
  tool: PlaceTool;
  chosen: number | null;
  zoom: number;
  onTap: (at: PointMm) => void;
  onChoose: (at: number) => void;
  /** `begins`: something is taken into the hand, as one act to be undone. */
  onChange: (places: Places, begins: boolean) => void;
  onKey: (at: number, key: string) => void;
}) {
  const { measurement, places, tool, chosen, zoom, onTap, onChoose, onChange, onKey } = props;
  const picture = useRef<HTMLDivElement>(null);
  const begun = useRef(false);
  const size = measurement.request.sizeMm;
  const rings = ringsOf(places, tool);
  const tap = (event: MouseEvent) => onTap(toMm(event, picture.current!.getBoundingClientRect(), size));
  const hold = (at: number) => {
    begun.current = true;
    onChoose(at);
  };
  const move = (at: number, to: PointMm) => {
    onChange(movedTo(places, { tool, at, to }, size), begun.current);
    begun.current = false;
  };
  return (
    <div className="brush-window places-roomy">
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the buttons below put a place without a pointer */}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the same */}
      <div
        ref={picture}
        className="places-picture"
        style={{ width: `${zoom * 100}%`, aspectRatio: `${size.lengthMm} / ${size.widthMm}` }}
        onClick={tap}
      >
        <img src={pictureUrl(measurement.rectified, 1280)} alt={placesText.picture} draggable={false} />
        <PlacesDrawing measurement={measurement} places={places} />
        {rings.map((at, index) => (
          <DragRing
            // biome-ignore lint/suspicious/noArrayIndexKey: a place is its number
            key={index}
            picture={picture}
            size={size}
            at={at}
            name={placesText.ring[tool](index + 1)}
            mark={String(index + 1)}
            chosen={chosen === index}
            onHold={() => hold(index)}
            onMove={(to) => move(index, to)}
            onKey={(key) => onKey(index, key)}
          />
        ))}
      </div>
    </div>
  );
}

function ringsOf({ hiddenMm, outlineMm, contactsMm }: Places, tool: PlaceTool): readonly PointMm[] {
  if (tool === "outline") return outlineMm;
  return tool === "contact" ? contactsMm.map(({ xMm, yMm }): PointMm => [xMm, yMm]) : hiddenMm.map(middleOf);
}

function movedTo(places: Places, { tool, at, to }: { tool: PlaceTool; at: number; to: PointMm }, size: SizeMm): Places {
  const { hiddenMm, outlineMm, contactsMm } = places;
  const [xMm, yMm] = insideOf(size, to);
  if (tool === "outline") return { ...places, outlineMm: outlineMm.with(at, [xMm, yMm]) };
  if (tool === "contact") return { ...places, contactsMm: contactsMm.with(at, { ...contactsMm[at]!, xMm, yMm }) };
  return { ...places, hiddenMm: hiddenMm.with(at, placeMoved(hiddenMm[at]!, to, size)) };
}

function middleOf(polygon: Places["hiddenMm"][number]): PointMm {
  const { xMm, yMm } = boundsOf(polygon);
  return [xMm, yMm];
}

const pathOf = (polygon: readonly PointMm[]) => `M${polygon.map((point) => point.join(" ")).join("L")}Z`;

/** Hatched: not judged. Outside an outline all is hatched. A ring of dashes: rust is counted within by itself. */
export function PlacesDrawing({ measurement, places }: { measurement: Measurement; places: Places }) {
  const { lengthMm, widthMm } = measurement.request.sizeMm;
  const { hiddenMm, outlineMm, contactsMm } = places;
  return (
    <svg viewBox={`0 0 ${lengthMm} ${widthMm}`} preserveAspectRatio="none" aria-hidden="true">
      <defs>
        <pattern id="place-left-out" width="2" height="2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="2" height="2" className="left-out-ground" />
          <line x1="0.5" x2="0.5" y2="2" className="left-out-line" />
        </pattern>
      </defs>
      {outlineMm.length >= 3 && (
        <path className="place-hatched" fillRule="evenodd" d={`M0 0H${lengthMm}V${widthMm}H0Z${pathOf(outlineMm)}`} />
      )}
      {outlineMm.length > 0 && (
        <>
          <path className="corner-under" d={pathOf(outlineMm)} />
          <path className="corner-line" d={pathOf(outlineMm)} />
        </>
      )}
      {hiddenMm.map((polygon, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a place is its number
        <path key={at} className="place-hatched place-edge" d={pathOf(polygon)} />
      ))}
      {contactsMm.map(({ xMm, yMm, radiusMm }, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a place is its number
        <g key={at}>
          <circle className="corner-under" cx={xMm} cy={yMm} r={radiusMm} />
          <circle className="corner-line place-contact" cx={xMm} cy={yMm} r={radiusMm} />
        </g>
      ))}
    </svg>
  );
}

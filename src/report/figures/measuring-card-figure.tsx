/** A measuring card as it is printed, one unit of the drawing to the millimetre. */
import { codeModules, markerBits, markerModules } from "../../core/vision/marker-codes.ts";
import { type CardMarker, cardRulerPrintedMm, type MeasuringCard } from "../../core/vision/measuring-card.ts";

export type CardWords = {
  /** For a reader who cannot see it. */
  label: string;
  name: string;
  top: string;
  acrossHint: readonly string[];
  ruler: string;
};

/** Millimetres of paper; the card stands in its upper part, the ruler under it. */
export function MeasuringCardFigure(props: {
  card: MeasuringCard;
  page: { widthMm: number; heightMm: number };
  /** Faint corners to lay the coupon between, its longer side across; null: none. */
  couponMm: { lengthMm: number; widthMm: number } | null;
  words: CardWords;
}) {
  const { card, page, couponMm, words } = props;
  const left = (page.widthMm - card.widthMm) / 2;
  const top = Math.min(20, (page.heightMm - card.heightMm - 40) / 2);
  return (
    <svg
      className="measuring-card"
      role="img"
      aria-label={words.label}
      width={`${page.widthMm}mm`}
      height={`${page.heightMm}mm`}
      viewBox={`0 0 ${page.widthMm} ${page.heightMm}`}
    >
      <rect width={page.widthMm} height={page.heightMm} fill="#fff" />
      <g transform={`translate(${left} ${top})`}>
        <rect
          width={card.widthMm}
          height={card.heightMm}
          fill="none"
          stroke="#999"
          strokeWidth="0.2"
          strokeDasharray="2 2"
        />
        {card.markers.map((marker) => (
          <Marker key={marker.id} marker={marker} sideMm={card.markerMm} />
        ))}
        <Patches card={card} />
        {couponMm && <CouponTicks card={card} couponMm={couponMm} />}
        <Words card={card} words={words} />
      </g>
      <Ruler x={(page.widthMm - cardRulerPrintedMm) / 2} y={top + card.heightMm + 10} text={words.ruler} />
    </svg>
  );
}

function Marker({ marker, sideMm }: { marker: CardMarker; sideMm: number }) {
  const module = sideMm / markerModules;
  const white = [...markerBits[marker.id]!].flatMap((bit, at) =>
    bit === 1 ? [`M${1 + (at % codeModules)} ${1 + Math.floor(at / codeModules)}h1v1h-1z`] : [],
  );
  return (
    <g transform={`translate(${marker.xMm} ${marker.yMm}) scale(${module})`}>
      <rect width={markerModules} height={markerModules} fill="#000" />
      <path d={white.join("")} fill="#fff" shapeRendering="crispEdges" />
    </g>
  );
}

function Patches({ card: { patches } }: { card: MeasuringCard }) {
  return patches.map(({ xMm, yMm, widthMm, heightMm, grey }) => (
    <rect
      key={grey}
      x={xMm}
      y={yMm}
      width={widthMm}
      height={heightMm}
      fill={`rgb(${grey} ${grey} ${grey})`}
      stroke="#999"
      strokeWidth={grey === 255 ? 0.2 : 0}
    />
  ));
}

/** Length of a tick and its distance from the coupon's edge, mm. */
const tickMm = 3;
const awayMm = 1.5;

function CouponTicks({
  card: { window },
  couponMm,
}: {
  card: MeasuringCard;
  couponMm: { lengthMm: number; widthMm: number };
}) {
  const halfX = Math.max(couponMm.lengthMm, couponMm.widthMm) / 2 + awayMm;
  const halfY = Math.min(couponMm.lengthMm, couponMm.widthMm) / 2 + awayMm;
  const [x, y] = [window.xMm + window.widthMm / 2, window.yMm + window.heightMm / 2];
  const path = [-1, 1].flatMap((across) =>
    [-1, 1].map(
      (down) =>
        `M${x + across * (halfX - tickMm)} ${y + down * halfY}H${x + across * halfX}V${y + down * (halfY - tickMm)}`,
    ),
  );
  return <path d={path.join("")} fill="none" stroke="#bbb" strokeWidth="0.25" />;
}

function Words({ card, words }: { card: MeasuringCard; words: CardWords }) {
  const middle = card.widthMm / 2;
  const bottom = card.heightMm;
  return (
    <g fill="#555" fontFamily="system-ui, sans-serif" textAnchor="middle">
      <path d={`M${middle - 1.6} 19.4l1.6-2.4l1.6 2.4z`} />
      <text x={middle} y="22.2" fontSize="2.6">
        {words.top}
      </text>
      <text x={middle} y={bottom - 13} fontSize="3.2" fontWeight="600">
        {words.name}
      </text>
      {words.acrossHint.map((line, at) => (
        <text key={line} x={middle} y={bottom - 9 + 3 * at} fontSize="2.2">
          {line}
        </text>
      ))}
    </g>
  );
}

function Ruler({ x, y, text }: { x: number; y: number; text: string }) {
  const marks = Array.from({ length: cardRulerPrintedMm + 1 }, (_, mm) => {
    const length = mm % 10 === 0 ? 6 : mm % 5 === 0 ? 4.5 : 3;
    return `M${mm} 0v${length}`;
  });
  return (
    <g transform={`translate(${x} ${y})`} fontFamily="system-ui, sans-serif" fontSize="3" textAnchor="middle">
      <path d={`M0 0H${cardRulerPrintedMm}${marks.join("")}`} fill="none" stroke="#000" strokeWidth="0.2" />
      {[0, 50, 100].map((mm) => (
        <text key={mm} x={mm} y="9.5">
          {mm}
        </text>
      ))}
      <text x={cardRulerPrintedMm / 2} y="15">
        {text}
      </text>
    </g>
  );
}

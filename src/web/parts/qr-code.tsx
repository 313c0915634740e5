/** An address as a code for a camera: always dark on white, since not every camera reads it the other way round. */
import { create } from "qrcode";

/** Modules of white that must stand around it (ISO/IEC 18004). */
const quiet = 4;

export function QrCode({ text, label }: { text: string; label: string }) {
  const { size, data } = create(text, { errorCorrectionLevel: "M" }).modules;
  const dark = Array.from(data).flatMap((is, at) => (is ? [`M${at % size} ${Math.floor(at / size)}h1v1h-1z`] : []));
  const side = size + 2 * quiet;
  return (
    <svg className="qr-code" viewBox={`${-quiet} ${-quiet} ${side} ${side}`} role="img" aria-label={label}>
      <rect x={-quiet} y={-quiet} width={side} height={side} fill="#fff" />
      <path d={dark.join("")} fill="#000" shapeRendering="crispEdges" />
    </svg>
  );
}

/** Which parts of the drawn cut have come off, class 5 (none) to 0, as SVG paths in a square of 60. */

const lines = [10, 18, 26, 34, 42, 50];
const square = 8;

/** Half-width of the loss along an X-cut, in the drawing's units; class 4 loses only specks. */
const xHalfWidth: Record<number, number> = { 3: 3, 2: 6 };

export function xCutLoss(step: number): string[] {
  if (step >= 5) return [];
  if (step === 4) return [ragged(30, 30, 3), ragged(22, 18, 1.5), ragged(37, 40, 1.5)];
  if (step === 1) return ["M10 6L50 6L43 30L50 54L10 54L17 30Z"];
  if (step === 0) return ["M4 3L56 3L57 30L56 57L4 57L3 30Z"];
  const half = xHalfWidth[step]!;
  return [alongCut([14, 6], [46, 54], half), alongCut([46, 6], [14, 54], half)];
}

/** A ragged band along one cut. */
function alongCut([ax, ay]: readonly [number, number], [bx, by]: readonly [number, number], half: number): string {
  const length = Math.hypot(bx - ax, by - ay);
  const [nx, ny] = [(by - ay) / length, (ax - bx) / length];
  const teeth = 9;
  const side = (sign: 1 | -1) =>
    Array.from({ length: teeth }, (_, at) => {
      const share = at / (teeth - 1);
      const out = half * (at % 2 === 0 ? 0.55 : 1) * sign;
      return `${(ax + (bx - ax) * share + nx * out).toFixed(1)} ${(ay + (by - ay) * share + ny * out).toFixed(1)}`;
    });
  return `M${[...side(1), ...side(-1).reverse()].join("L")}Z`;
}

/** A small star of loss round a point. */
function ragged(x: number, y: number, radius: number): string {
  const spikes = Array.from({ length: 8 }, (_, at) => {
    const out = radius * (at % 2 === 0 ? 1 : 0.55);
    const angle = (at * Math.PI) / 4;
    return `${(x + out * Math.cos(angle)).toFixed(1)} ${(y + out * Math.sin(angle)).toFixed(1)}`;
  });
  return `M${spikes.join("L")}Z`;
}

/** Squares of the lattice that are gone, of 25, with a share of the area inside the limits of each class. */
const goneSquares: Record<number, number> = { 2: 6, 1: 12, 0: 20 };

export function latticeLoss(step: number): string[] {
  if (step >= 5) return [];
  const crossings = lines.flatMap((x, column) => lines.map((y, row) => ({ x, y, pick: (column * 7 + row * 3) % 5 })));
  if (step === 4) return crossings.filter(({ pick }) => pick === 0).map(({ x, y }) => ragged(x, y, 2));
  if (step === 3) return crossings.filter(({ pick }) => pick < 3).map(({ x, y }) => ragged(x, y, 2.8));
  return squaresInDrawnOrder.slice(0, goneSquares[step]!).map(([column, row]) => {
    return `M${lines[column]} ${lines[row]}h${square}v${square}h${-square}Z`;
  });
}

/** Scattered first, so that the drawing looks like flakes and not like a filling bar. */
const squaresInDrawnOrder = Array.from({ length: 25 }, (_, at) => {
  const place = (at * 7 + 3) % 25;
  return [place % 5, Math.floor(place / 5)] as const;
});

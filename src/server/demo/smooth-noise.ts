/** Cloudy noise for rendered steel: a coarse lattice of random values, drawn out smoothly. */
import type { SeededRandom } from "../../core/numeric/random.ts";

/** Values from -1 to 1 on a raster; features are about `gridX` by `gridY` px large. */
export function smoothNoise(
  random: SeededRandom,
  raster: { width: number; height: number },
  grid: { gridX: number; gridY: number },
): Float32Array {
  const columns = Math.ceil(raster.width / grid.gridX) + 2;
  const rows = Math.ceil(raster.height / grid.gridY) + 2;
  const lattice = Float32Array.from({ length: columns * rows }, () => random.next() * 2 - 1);
  const across = Array.from({ length: raster.width }, (_, x) => Math.floor(x / grid.gridX));
  const alongs = Float64Array.from(across, (column, x) => eased(x / grid.gridX - column));
  const noise = new Float32Array(raster.width * raster.height);
  for (let y = 0, at = 0; y < raster.height; y++) {
    const row = Math.floor(y / grid.gridY);
    const down = eased(y / grid.gridY - row);
    for (let x = 0; x < raster.width; x++, at++) {
      const along = alongs[x]!;
      const corner = row * columns + across[x]!;
      const upper = lattice[corner]! * (1 - along) + lattice[corner + 1]! * along;
      const lower = lattice[corner + columns]! * (1 - along) + lattice[corner + columns + 1]! * along;
      noise[at] = upper * (1 - down) + lower * down;
    }
  }
  return noise;
}

const eased = (share: number) => share * share * (3 - 2 * share);

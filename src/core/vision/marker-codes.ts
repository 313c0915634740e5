/**
 * The twelve markers of the measuring cards: the first twelve codes of the open family ARUCO_MIP_36h12.
 *
 * A marker is a black square of 8 by 8 modules whose inner 6 by 6 carry the code, row by row; 1 is white. Any two codes of the family
 * differ in at least 12 modules in every turn, so up to five misread modules are put right.
 *
 * Credit: the codes as listed in js-aruco2 (MIT licence; the list itself BSD 2-Clause, from the ArUco library).
 *
 * Units    modules
 * Source   ARUCO_MIP_36h12
 * Status   published
 */

const codesInHex = [
  ...["d2b63a09d", "6001134e5", "1206fbe72", "ff8ad6cb4"],
  ...["85da9bc49", "b461afe9c", "6db51fe13", "5248c541f"],
  ...["008f34503", "8ea462ece", "eac2be76d", "1af615c44"],
];

/** Modules along a side: the black border and six of code. */
export const markerModules = 8;
export const codeModules = 6;
const correctable = 5;

/** Bits of each marker, row by row, 1 = white. */
export const markerBits: readonly Uint8Array[] = codesInHex.map(bitsOfHex);

function bitsOfHex(hex: string): Uint8Array {
  const binary = [...hex].map((digit) => Number.parseInt(digit, 16).toString(2).padStart(4, "0")).join("");
  return Uint8Array.from(binary, Number);
}

/** The same square after a quarter turn clockwise. */
function turned(bits: Uint8Array): Uint8Array {
  return bits.map((_, at) => {
    const row = Math.floor(at / codeModules);
    const column = at % codeModules;
    return bits[(codeModules - 1 - column) * codeModules + row]!;
  });
}

export type ReadMarker = {
  id: number;
  /** Quarter turns clockwise from the marker upright to the marker as it was read. */
  quarterTurns: number;
  /** Modules that had to be put right. */
  wrongBits: number;
};

/** Which marker 36 modules show, in whichever turn; null when they are nearer to none than five modules. */
export function readMarkerBits(seen: ArrayLike<number>): ReadMarker | null {
  let best: ReadMarker | null = null;
  for (const [id, upright] of markerBits.entries()) {
    let bits = upright;
    for (let quarterTurns = 0; quarterTurns < 4; quarterTurns++) {
      let wrongBits = 0;
      for (let at = 0; at < bits.length; at++) if (bits[at] !== seen[at]) wrongBits++;
      if (wrongBits <= correctable && (best === null || wrongBits < best.wrongBits))
        best = { id, quarterTurns, wrongBits };
      bits = turned(bits);
    }
  }
  return best;
}

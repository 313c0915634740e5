/** Whether a draw is spread well enough over the rack. A draw that is not is repeated, and its test knows that. */

export type LabelledPlace = { treatment: string; row: number; column: number };

/**
 * "No treatment all on one edge": of no treatment with two or more coupons do all hang in the first row, all in the last, all in the first
 * column or all in the last. Rows and columns are numbers on the rack; first and last are those of the places given, and a direction in which the rack has a single
 * line has no edges.
 */
export function noTreatmentAllOnOneEdge(places: readonly LabelledPlace[]): boolean {
  const edges = [...edgesOf(places, "row"), ...edgesOf(places, "column")];
  return [...new Set(places.map((one) => one.treatment))].every((treatment) => {
    const own = places.filter((one) => one.treatment === treatment);
    return own.length < 2 || !edges.some(({ along, line }) => own.every((one) => one[along] === line));
  });
}

function edgesOf(places: readonly LabelledPlace[], along: "row" | "column") {
  const lines = places.map((one) => one[along]);
  const [first, last] = [Math.min(...lines), Math.max(...lines)];
  return first === last ? [] : [first, last].map((line) => ({ along, line }));
}

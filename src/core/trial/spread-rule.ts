/** Whether a draw is spread well enough over the rack. A draw that is not is repeated, and its test knows that. */

export type RackPlace = { row: number; column: number };

/**
 * "No treatment all on one edge": of no treatment with two or more coupons do all hang in the first row, all in the last, all in the first
 * column or all in the last. Rows and columns are numbers on the rack; first and last are those of the places given, and a direction in
 * which the rack has a single line has no edges.
 */
export function noTreatmentAllOnOneEdge(places: readonly (RackPlace & { treatment: string })[]): boolean {
  const edges = edgesOfPlaces(places);
  return [...new Set(places.map((one) => one.treatment))].every((treatment) => {
    const own = edges.filter((_, at) => places[at]!.treatment === treatment);
    return own.length < 2 || own.reduce((all, edge) => all & edge) === 0;
  });
}

/** The edges that each place hangs on, as bits: first row 1, last row 2, first column 4, last column 8. */
export function edgesOfPlaces(places: readonly RackPlace[]): number[] {
  const rows = endsOf(places.map((one) => one.row));
  const columns = endsOf(places.map((one) => one.column));
  return places.map(({ row, column }) => rows(row) | (columns(column) << 2));
}

function endsOf(lines: readonly number[]): (line: number) => number {
  const [first, last] = [Math.min(...lines), Math.max(...lines)];
  return (line) => (first === last ? 0 : line === first ? 1 : line === last ? 2 : 0);
}

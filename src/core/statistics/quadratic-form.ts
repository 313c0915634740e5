/**
 * x' V^- x for a covariance matrix V that may be short of rank.
 *
 * Units    none where V is the covariance of x
 * Source   pivoted Cholesky factorisation, a textbook method
 * Status   memory
 */

/**
 * Rank of V and the form. x must lie in the range of V (sums whose covariance is V always do), where all generalised inverses agree.
 * Pivoted Cholesky: a direction without variance has a pivot of 0 and is left out.
 */
export function quadraticForm(covariance: readonly (readonly number[])[]) {
  const rest = covariance.map((row) => [...row]);
  const largest = Math.max(0, ...rest.map((row, at) => row[at]!));
  const pivots: number[] = [];
  const columns: number[][] = [];
  for (;;) {
    const left = [...rest.keys()].filter((at) => !pivots.includes(at));
    const pivot = left.reduce((best, at) => (best < 0 || rest[at]![at]! > rest[best]![best]! ? at : best), -1);
    if (pivot < 0 || !(rest[pivot]![pivot]! > 1e-10 * largest)) break;
    const root = Math.sqrt(rest[pivot]![pivot]!);
    const column = rest.map((row) => row[pivot]! / root);
    for (const row of left) for (const other of left) rest[row]![other]! -= column[row]! * column[other]!;
    pivots.push(pivot);
    columns.push(column);
  }
  const solved = pivots.map(() => 0);
  const value = (x: ArrayLike<number>): number => {
    let sum = 0;
    for (let k = 0; k < pivots.length; k++) {
      const pivot = pivots[k]!;
      let y = x[pivot]!;
      for (let earlier = 0; earlier < k; earlier++) y -= columns[earlier]![pivot]! * solved[earlier]!;
      solved[k] = y / columns[k]![pivot]!;
      sum += solved[k]! * solved[k]!;
    }
    return sum;
  };
  return { rank: pivots.length, value };
}

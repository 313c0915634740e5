/**
 * The lowest point of a parabola over numbers of 0 or above.
 *
 * Units    none
 * Source   Lawson and Hanson, Solving Least Squares Problems, 1974
 * Status   memory
 */

/**
 * Minimises x' M x / 2 - b' x over x >= 0, M symmetric and not negative (Lawson and Hanson's active set), starting from the
 * variables above 0 in `start`. Where several x are lowest, one of them.
 */
export function leastSquaresNotNegative(
  matrix: readonly Float64Array[],
  target: Float64Array,
  start: Float64Array,
): Float64Array {
  const size = target.length;
  let x = start.slice();
  const passive = Array.from(start, (value) => value > 0);
  const scale = target.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  for (let round = 0; round < 6 * size; round++) {
    x = lowestOn(matrix, target, x, passive);
    let entering = -1;
    let steepest = 1e-12 * scale;
    for (let at = 0; at < size; at++) {
      if (passive[at]) continue;
      let slope = target[at]!;
      for (let other = 0; other < size; other++) slope -= matrix[at]![other]! * x[other]!;
      if (slope <= steepest) continue;
      steepest = slope;
      entering = at;
    }
    if (entering < 0) return x;
    passive[entering] = true;
  }
  return x;
}

/** Lowest point with only the passive variables free; one that would fall below 0 leaves them. Changes `passive`. */
function lowestOn(matrix: readonly Float64Array[], target: Float64Array, from: Float64Array, passive: boolean[]) {
  const x = from.slice();
  for (;;) {
    const free = [...passive.keys()].filter((at) => passive[at]);
    const goal = solveDefinite(matrix, target, free);
    let length = 1;
    for (const [k, at] of free.entries()) if (goal[k]! <= 0) length = Math.min(length, x[at]! / (x[at]! - goal[k]!));
    let left = false;
    for (const [k, at] of free.entries()) {
      const value = x[at]! + length * (goal[k]! - x[at]!);
      // The variable that ended the step is 0 exactly; rounding may leave it a hair above.
      const leaves = goal[k]! <= 0 && value <= 1e-15 * Math.max(1, Math.abs(goal[k]!));
      x[at] = leaves ? 0 : value;
      if (leaves) passive[at] = false;
      left ||= leaves;
    }
    if (!left) return x;
  }
}

/**
 * Cholesky on the rows and columns in `free`. Dependent columns leave a pivot of 0: the small ridge turns that direction into a
 * long step, which ends where a variable reaches 0.
 */
function solveDefinite(matrix: readonly Float64Array[], target: Float64Array, free: readonly number[]): Float64Array {
  const size = free.length;
  const ridge = 1e-13 * free.reduce((largest, at) => Math.max(largest, matrix[at]![at]!), 0);
  const root = free.map(() => new Float64Array(size));
  const solution = Float64Array.from(free, (at) => target[at]!);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = matrix[free[row]!]![free[column]!]! + (row === column ? ridge : 0);
      for (let k = 0; k < column; k++) sum -= root[row]![k]! * root[column]![k]!;
      root[row]![column] = row === column ? Math.sqrt(Math.max(sum, ridge)) : sum / root[column]![column]!;
    }
    for (let k = 0; k < row; k++) solution[row]! -= root[row]![k]! * solution[k]!;
    solution[row]! /= root[row]![row]!;
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) solution[row]! -= root[k]![row]! * solution[k]!;
    solution[row]! /= root[row]![row]!;
  }
  return solution;
}

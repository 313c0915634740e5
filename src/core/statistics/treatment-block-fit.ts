/**
 * Measured values as treatment plus block, by least squares: one-way when there is one block, paired for two treatments in pairs,
 * intrablock for incomplete blocks; missing cells need nothing special.
 *
 * Units   those of the values; variances in units of the mean square
 * Source  least squares; sweep operator: Goodnight 1979
 * Status  computed
 */
export type PlacedValue = { value: number; treatment: string; block: string };

export type TreatmentBlockFit = {
  errorDf: number;
  /** Error mean square; null without degrees of freedom. */
  meanSquare: number | null;
  residuals: number[];
  /** First less second with its variance in units of the mean square; null where no blocks tie the two together. */
  difference: (first: string, second: string) => { value: number; variance: number } | null;
};

/** Least squares over all values; units of the values. */
export function treatmentBlockFit(values: readonly PlacedValue[]): TreatmentBlockFit {
  const treatments = [...new Set(values.map((one) => one.treatment))];
  const blocks = [...new Set(values.map((one) => one.block))];
  const origin = values.reduce((sum, one) => sum + one.value, 0) / values.length;
  const columnsOf = (one: PlacedValue) => {
    const block = blocks.indexOf(one.block) - 1;
    return [treatments.indexOf(one.treatment), ...(block >= 0 ? [treatments.length + block] : [])];
  };
  const { inverse, aliased } = normalInverse(values.map(columnsOf), treatments.length + blocks.length - 1);
  const right = inverse.map(() => 0);
  for (const one of values) for (const column of columnsOf(one)) right[column]! += one.value - origin;
  const estimates = inverse.map((row) => row.reduce((sum, share, at) => sum + share * right[at]!, 0));
  const residuals = values.map(
    (one) => one.value - origin - columnsOf(one).reduce((sum, at) => sum + estimates[at]!, 0),
  );
  const errorDf = values.length - (inverse.length - aliased.size);
  const squares = residuals.reduce((sum, residual) => sum + residual * residual, 0);
  return {
    errorDf,
    meanSquare: errorDf > 0 ? squares / errorDf : null,
    residuals,
    difference: (first, second) => {
      const [a, b] = [treatments.indexOf(first), treatments.indexOf(second)];
      if (a < 0 || b < 0 || !connected(values, first, second)) return null;
      const variance = inverse[a]![a]! + inverse[b]![b]! - 2 * inverse[a]![b]!;
      return { value: estimates[a]! - estimates[b]!, variance };
    },
  };
}

/** Inverse of the normal equations, column by column; a column that the others already make up is left out (aliased). */
function normalInverse(rows: readonly (readonly number[])[], size: number) {
  const matrix = Array.from({ length: size }, () => new Float64Array(size));
  for (const row of rows) for (const a of row) for (const b of row) matrix[a]![b]! += 1;
  const aliased = new Set<number>();
  for (let k = 0; k < size; k++) {
    const pivot = matrix[k]![k]!;
    if (pivot < 1e-9) {
      aliased.add(k);
      for (let at = 0; at < size; at++) {
        matrix[k]![at] = 0;
        matrix[at]![k] = 0;
      }
      continue;
    }
    sweep(matrix, k, pivot);
  }
  return { inverse: matrix, aliased };
}

/** One step of the sweep operator (Goodnight 1979), which leaves the inverse where the matrix stood. */
function sweep(matrix: Float64Array[], k: number, pivot: number): void {
  const size = matrix.length;
  const row = matrix[k]!;
  for (let at = 0; at < size; at++) row[at]! /= pivot;
  for (let other = 0; other < size; other++) {
    if (other === k) continue;
    const factor = matrix[other]![k]!;
    if (factor === 0) continue;
    for (let at = 0; at < size; at++) matrix[other]![at]! -= factor * row[at]!;
    matrix[other]![k] = -factor / pivot;
  }
  row[k] = 1 / pivot;
}

/** Whether a chain of blocks and treatments leads from one treatment to the other. */
function connected(values: readonly PlacedValue[], first: string, second: string): boolean {
  const reached = new Set([first]);
  for (let grown = true; grown; ) {
    grown = false;
    const blocks = new Set(values.filter((one) => reached.has(one.treatment)).map((one) => one.block));
    for (const { treatment, block } of values)
      if (blocks.has(block) && !reached.has(treatment)) {
        reached.add(treatment);
        grown = true;
      }
  }
  return reached.has(second);
}

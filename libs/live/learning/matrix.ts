/** A square matrix, row after row. */
export interface Square {
  readonly size: number;
  readonly cells: Float64Array;
}

export const zeros = (size: number): Square => ({ size, cells: new Float64Array(size * size) });

/**
 * The inverse of a symmetric positive definite matrix, by its Cholesky factor (Golub and Van Loan,
 * Matrix Computations, 4.2). O(n³). Throws a RangeError where it is not positive definite.
 */
export function inverse({ size: n, cells: a }: Square): Square {
  const lower = choleskyOf(n, a);
  // The inverse of the factor with rows and columns changed over, so that memory is read in order.
  const back = new Float64Array(n * n);
  for (let j = 0; j < n; j += 1) {
    back[j * n + j] = 1 / lower[j * n + j];
    for (let i = j + 1; i < n; i += 1) {
      let sum = 0;
      for (let k = j; k < i; k += 1) sum += lower[i * n + k] * back[j * n + k];
      back[j * n + i] = -sum / lower[i * n + i];
    }
  }
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = 0;
      for (let k = i; k < n; k += 1) sum += back[i * n + k] * back[j * n + k];
      out[i * n + j] = sum;
    }
  }
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < i; j += 1) out[j * n + i] = out[i * n + j];
  }
  return { size: n, cells: out };
}

function choleskyOf(n: number, a: Float64Array): Float64Array {
  const lower = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = a[i * n + j];
      for (let k = 0; k < j; k += 1) sum -= lower[i * n + k] * lower[j * n + k];
      if (i !== j) lower[i * n + j] = sum / lower[j * n + j];
      else if (sum > 0) lower[i * n + i] = Math.sqrt(sum);
      else throw new RangeError('the matrix is not positive definite');
    }
  }
  return lower;
}

export function times({ size: n, cells }: Square, vector: Float64Array): Float64Array {
  const out = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let sum = 0;
    for (let j = 0; j < n; j += 1) sum += cells[i * n + j] * vector[j];
    out[i] = sum;
  }
  return out;
}

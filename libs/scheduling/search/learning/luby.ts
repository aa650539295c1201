/**
 * The k-th term (k >= 1) of 1 1 2 1 1 2 4 1 1 2 ...: M. Luby, A. Sinclair, D. Zuckerman,
 * "Optimal speedup of Las Vegas algorithms", Information Processing Letters 47 (1993) 173-180.
 */
export function luby(k: number): number {
  let size = 1;
  let term = 1;
  while (size < k) {
    size = 2 * size + 1;
    term *= 2;
  }
  let rest = k;
  while (rest !== size) {
    size = (size - 1) / 2;
    term /= 2;
    if (rest > size) rest -= size;
  }
  return term;
}

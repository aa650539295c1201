/** The normal distribution, to about fifteen digits, in its far tails as well. */

const ROOT_2PI = Math.sqrt(2 * Math.PI);

/** Where the series gives way to the continued fraction. */
const FAR = 3;

const density = (z: number): number => Math.exp((-z * z) / 2) / ROOT_2PI;

/** P(Z > z) / density(z) for z of at least `FAR` (Laplace; Abramowitz and Stegun 26.2.14). */
function millsRatio(z: number): number {
  let tail = z;
  for (let k = 60; k >= 1; k--) tail = z + k / tail;
  return 1 / tail;
}

/** Logarithm of P(Z <= z). */
export function logBelow(z: number): number {
  if (z <= -FAR) return Math.log(millsRatio(-z)) - (z * z) / 2 - Math.log(ROOT_2PI);
  if (z >= FAR) return Math.log1p(-density(z) * millsRatio(z));
  // Abramowitz and Stegun 26.2.11.
  let term = z;
  let sum = z;
  for (let k = 1; Math.abs(term) > 1e-17; k++) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return Math.log(0.5 + density(z) * sum);
}

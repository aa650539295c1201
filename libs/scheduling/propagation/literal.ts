/**
 * Bound literals. Variable `x` has two bounds that only rise: `2x` is its lower bound and
 * `2x + 1` its negated upper bound, so one rule serves both directions of time. The literal
 * `(b, v)` says "bound[b] >= v"; its negation is `(b ^ 1, 1 - v)`.
 *
 * Follows the lazy literals of O. Ohrimenko, P. J. Stuckey, M. Codish, "Propagation via lazy
 * clause generation", Constraints 14 (2009) 357-391, without the equality literals.
 */
export const lowerOf = (x: number): number => 2 * x;
export const upperOf = (x: number): number => 2 * x + 1;

/** A growing list of literals in two parallel arrays; cleared rather than rebuilt. */
export class Literals {
  bounds = new Int32Array(64);
  values = new Int32Array(64);
  size = 0;

  clear(): void {
    this.size = 0;
  }

  add(b: number, v: number): void {
    if (this.size === this.bounds.length) this.grow();
    this.bounds[this.size] = b;
    this.values[this.size++] = v;
  }

  private grow(): void {
    this.bounds = doubled(this.bounds);
    this.values = doubled(this.values);
  }
}

/** A copy of twice the length, the new half zero. */
export function doubled(array: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const next = new Int32Array(array.length * 2);
  next.set(array);
  return next;
}

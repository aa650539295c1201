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

/**
 * The value at which a Boolean's bound makes its literal true. A Boolean is a variable in 0..1, and
 * a literal of it is named by a bound alone: `lowerOf(x)` says that x is 1, `upperOf(x)` that it is 0.
 */
export const truth = (b: number): number => 1 - (b & 1);

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

  /** Where bound `b` first occurs, -1 if it does not. */
  find(b: number): number {
    for (let k = 0; k < this.size; k++) if (this.bounds[k] === b) return k;
    return -1;
  }

  /** Becomes a copy of `other`. */
  copy(other: Literals): void {
    this.clear();
    for (let k = 0; k < other.size; k++) this.add(other.bounds[k], other.values[k]);
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

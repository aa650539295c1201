import { lowerOf, truth, upperOf, type Literals } from './literal.ts';
import { ARC, type Trail } from './trail.ts';

/** `to >= from + weight` between two variables, if the literal `(when, ...)` of a Boolean is true; -1: always. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
  readonly when: number;
}

interface Raw {
  source: number;
  target: number;
  weight: number;
  when: number;
}

/**
 * Difference constraints, some under a condition (half-reified). Each becomes two arcs over
 * bounds, forwards for lower and backwards for upper bounds. A true condition raises the
 * target; a contradiction makes the condition false.
 *
 * Follows T. Feydy, A. Schutt, P. J. Stuckey, "Global difference constraint propagation for
 * finite domain solvers", PPDP 2008, in its plain form: no potentials, bounds only.
 * One rise costs O(arcs at that bound); explanations O(1), lifted to the value asked for.
 */
export class Arcs {
  private readonly trail: Trail;
  private readonly first: Int32Array;
  private readonly source: Int32Array;
  private readonly target: Int32Array;
  private readonly weight: Int32Array;
  private readonly when: Int32Array;
  /** Arcs by the bound whose rise makes their condition true. */
  private readonly wakeFirst: Int32Array;
  private readonly wake: Int32Array;

  constructor(trail: Trail, arcs: readonly Arc[]) {
    this.trail = trail;
    const raw = arcs.flatMap(({ from, to, weight, when }): Raw[] => [
      { source: lowerOf(from), target: lowerOf(to), weight, when },
      { source: upperOf(to), target: upperOf(from), weight, when },
    ]);
    raw.sort((a, b) => a.source - b.source);
    this.source = Int32Array.from(raw, (a) => a.source);
    this.target = Int32Array.from(raw, (a) => a.target);
    this.weight = Int32Array.from(raw, (a) => a.weight);
    this.when = Int32Array.from(raw, (a) => a.when);
    this.first = offsets(this.source, trail.bound.length);
    const conditional = raw.map((_, a) => a).filter((a) => raw[a].when >= 0);
    conditional.sort((a, b) => raw[a].when - raw[b].when);
    this.wake = Int32Array.from(conditional);
    const keys = Int32Array.from(conditional, (a) => raw[a].when);
    this.wakeFirst = offsets(keys, trail.bound.length);
  }

  /** After a rise of bound `b`. False on conflict. */
  propagate(b: number): boolean {
    const { trail, target, weight, when } = this;
    const bound = trail.bound;
    const end = this.first[b + 1];
    for (let a = this.first[b]; a < end; a++) {
      const value = bound[b] + weight[a];
      const c = when[a];
      if (c < 0 || bound[c] >= truth(c)) {
        if (value > bound[target[a]] && !trail.raise(target[a], value, ARC | (a << 2), 0))
          return false;
      } else if (value + bound[target[a] ^ 1] > 0 && bound[c ^ 1] < truth(c ^ 1)) {
        if (!trail.raise(c ^ 1, truth(c ^ 1), ARC | (a << 2), 0)) return false;
      }
    }
    if (bound[b] < truth(b)) return true; // only at the root: a Boolean that has not risen
    const wakeEnd = this.wakeFirst[b + 1];
    for (let k = this.wakeFirst[b]; k < wakeEnd; k++) {
      const a = this.wake[k];
      const value = bound[this.source[a]] + weight[a];
      if (value > bound[target[a]] && !trail.raise(target[a], value, ARC | (a << 2), 0))
        return false;
    }
    return true;
  }

  /** Why (b, v) followed from arc `a`, in the state before it did. */
  explain(a: number, b: number, v: number, out: Literals): void {
    const s = this.source[a];
    const c = this.when[a];
    if (b === this.target[a]) {
      out.add(s, v - this.weight[a]);
      if (c >= 0) out.add(c, truth(c));
      return;
    }
    // The condition was refuted: source and opposite target need only sum to 1 - weight.
    const opposite = this.target[a] ^ 1;
    const bound = this.trail.bound;
    const slack = bound[s] + this.weight[a] + bound[opposite] - 1;
    out.add(s, bound[s]);
    out.add(opposite, bound[opposite] - slack);
  }

  /** Whether the reason of a rise of `b` can be told without the state: the condition's slack cannot. */
  isStateless(a: number, b: number): boolean {
    return b === this.target[a];
  }
}

/** For ascending `keys` in 0..count-1: where each key's run starts, with the end at `count`. */
function offsets(keys: Int32Array, count: number): Int32Array {
  const first = new Int32Array(count + 1);
  for (const key of keys) first[key + 1]++;
  for (let k = 0; k < count; k++) first[k + 1] += first[k];
  return first;
}

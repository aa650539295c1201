import type { Refute } from './refute.ts';

/** Finishes by refit that no plan keeps all at once: at least one of `refits` ends later than its cap. */
export interface Refusal {
  readonly refits: readonly number[];
  readonly caps: readonly number[];
}

/** What a vector of finishes costs; never less for a later finish of one refit. */
export type Cost = (refit: number, finish: number) => number;

interface Node {
  readonly finishes: readonly number[];
  readonly cost: number;
  /** The refits that were put off last, the latest first. */
  readonly recent: readonly number[];
}

/** Nodes by cost, the cheapest first. */
class Heap {
  private readonly nodes: Node[] = [];

  get size(): number {
    return this.nodes.length;
  }

  get least(): number {
    return this.nodes.length === 0 ? Infinity : this.nodes[0].cost;
  }

  push(node: Node): void {
    const { nodes } = this;
    let i = nodes.length;
    nodes.push(node);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (nodes[up].cost <= node.cost) break;
      nodes[i] = nodes[up];
      i = up;
    }
    nodes[i] = node;
  }

  pop(): Node | undefined {
    const { nodes } = this;
    const top = nodes.at(0);
    const last = nodes.pop();
    if (top === undefined || last === undefined || nodes.length === 0) return top;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= nodes.length) break;
      if (child + 1 < nodes.length && nodes[child + 1].cost < nodes[child].cost) child += 1;
      if (nodes[child].cost >= last.cost) break;
      nodes[i] = nodes[child];
      i = child;
    }
    nodes[i] = last;
    return top;
  }
}

/** Nodes kept at most; with more the search gives up, its bound standing. */
const MOST_NODES = 200_000;
/** A cap is raised until its next step would be so many minutes. */
const FINEST = 15;
/** Nodes settled by known refusals between two steps. */
const SETTLED = 100;

export interface VectorSearch {
  /** No plan costs less. */
  readonly bound: number;
  readonly done: boolean;
  /** When done: a cheapest vector of which nothing could be shown; null if all are refuted, or too many are open. */
  readonly open: readonly number[] | null;
  /** One call of `refute`, or some nodes that are known to be refused. */
  step(): void;
}

/**
 * Least cost over all vectors of finishes that are not refuted, by best-first search. A vector that is
 * refuted as caps is refuted with as few refits and as late caps as can be shown (a refusal); in
 * every plan one of these finishes later, and each that may is a child. The cost of the
 * cheapest node left bounds every plan from below: this is the set-cover side of logic-based Benders
 * decomposition (Hooker & Ottosson, Mathematical Programming 96, 2003), solved by enumeration.
 */
export function vectorSearch(
  least: readonly number[],
  horizon: number,
  cost: Cost,
  refute: Refute,
  refusals: Refusal[],
): VectorSearch {
  const total = (finishes: readonly number[]): number =>
    finishes.reduce((sum, finish, r) => sum + cost(r, finish), 0);
  const heap = new Heap();
  const seen = new Set<string>();
  const add = (finishes: readonly number[], recent: readonly number[]): void => {
    const key = finishes.join();
    if (seen.has(key)) return;
    seen.add(key);
    heap.push({ finishes, cost: total(finishes), recent });
  };
  const state: { bound: number; done: boolean; open: readonly number[] | null } = {
    bound: total(least),
    done: false,
    open: null,
  };
  add(least, []);

  /** Children of a node by a refusal that it does not keep. */
  const branch = ({ finishes, recent }: Node, { refits, caps }: Refusal): void => {
    for (const r of refits) {
      if (caps[r] >= horizon) continue;
      const later = finishes.slice();
      later[r] = caps[r] + 1;
      add(later, [r, ...recent.filter((x) => x !== r)]);
    }
  };
  const refused = ({ finishes }: Node): Refusal | undefined =>
    refusals.find(({ refits, caps }) => refits.every((r) => finishes[r] <= caps[r]));

  function* work(): Generator<undefined> {
    let settled = 0;
    for (;;) {
      if (heap.size > MOST_NODES) return;
      const node = heap.pop();
      if (!node) {
        // Every vector is refuted: there is no plan within the horizon.
        state.bound = Infinity;
        return;
      }
      state.bound = Math.max(state.bound, node.cost);
      const known = refused(node);
      if (known) {
        branch(node, known);
        settled += 1;
        if (settled % SETTLED === 0) yield;
        continue;
      }
      yield;
      if (!refute(node.finishes)) {
        // Nothing is shown of this vector, and so of no cost above its own.
        state.open = node.finishes;
        return;
      }
      const caps = [...node.finishes];
      const order = [
        ...caps.map((_, r) => r).filter((r) => !node.recent.includes(r)),
        ...node.recent.toReversed(),
      ];
      let refits = order;
      for (const r of order) {
        const without = caps.slice();
        without[r] = Infinity;
        yield;
        if (refute(without)) {
          caps[r] = Infinity;
          refits = refits.filter((x) => x !== r);
        }
      }
      for (const r of refits.toReversed()) {
        for (let step = 960; step >= FINEST;) {
          const later = caps.slice();
          later[r] = Math.min(horizon, caps[r] + step);
          yield;
          if (refute(later)) {
            caps[r] = later[r];
            if (later[r] === horizon) break;
            step *= 2;
          } else step >>= 1;
        }
      }
      const refusal = { refits, caps };
      refusals.push(refusal);
      branch(node, refusal);
    }
  }
  const running = work();
  running.next();
  return {
    get bound() {
      return state.bound;
    },
    get open() {
      return state.open;
    },
    get done() {
      return state.done;
    },
    step() {
      if (running.next().done === true) state.done = true;
    },
  };
}

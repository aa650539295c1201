/** No path: small enough to add two of them without overflow. */
export const NO_PATH = -0x20000000;

/**
 * All-pairs longest paths of a graph of difference constraints, `at(i, j)` being the least
 * distance from `i` to `j`, kept closed while arcs are added.
 *
 * R. W. Floyd, "Algorithm 97: shortest path", CACM 5 (1962) 345. O(n^3) once, O(n^2) an arc.
 */
export class Distances {
  readonly nodes: number;
  readonly table: Int32Array;
  /** False once a cycle of positive length exists. */
  consistent = true;

  constructor(nodes: number, arcs: Iterable<readonly [from: number, to: number, weight: number]>) {
    this.nodes = nodes;
    this.table = new Int32Array(nodes * nodes).fill(NO_PATH);
    for (let i = 0; i < nodes; i++) this.table[i * nodes + i] = 0;
    for (const [from, to, weight] of arcs) {
      const cell = from * nodes + to;
      this.table[cell] = Math.max(this.table[cell], weight);
    }
    this.close();
  }

  at(i: number, j: number): number {
    return this.table[i * this.nodes + j];
  }

  private close(): void {
    const { nodes, table } = this;
    for (let k = 0; k < nodes; k++) {
      for (let i = 0; i < nodes; i++) {
        const head = table[i * nodes + k];
        if (head !== NO_PATH && i !== k) this.relaxRow(i, k, head);
      }
      for (let i = 0; i < nodes; i++) if (table[i * nodes + i] > 0) this.consistent = false;
      // Beyond this point a positive cycle would only make the numbers grow.
      if (!this.consistent) return;
    }
  }

  /** Row i: at(i, j) = max(at(i, j), head + at(k, j)). */
  private relaxRow(i: number, k: number, head: number): void {
    const { nodes, table } = this;
    const row = i * nodes;
    const through = k * nodes;
    for (let j = 0; j < nodes; j++) {
      const tail = table[through + j];
      if (tail !== NO_PATH && head + tail > table[row + j]) table[row + j] = head + tail;
    }
  }

  /** Adds an arc. False, leaving the table as it was, if it closes a cycle of positive length. */
  add(from: number, to: number, weight: number): boolean {
    const { nodes, table } = this;
    const back = table[to * nodes + from];
    if (back !== NO_PATH && back + weight > 0) {
      this.consistent = false;
      return false;
    }
    if (weight <= table[from * nodes + to]) return true;
    for (let i = 0; i < nodes; i++) {
      const head = table[i * nodes + from];
      if (head !== NO_PATH) this.relaxRow(i, to, head + weight);
    }
    return true;
  }
}

/** Two activities that cannot overlap: `first` before `second` or the other way round. */
export interface Pair {
  readonly first: number;
  readonly second: number;
}

/**
 * Orders every pair of which one order contradicts the distances, until nothing changes, and
 * gives the pairs that stay open. Null if some pair allows neither order, or the distances
 * are inconsistent.
 *
 * P. Brucker, S. Knust, "Complex Scheduling" (2nd ed., Springer 2012), section 3.6: immediate
 * selection on the transitively closed distance matrix (section from memory). O(pairs) a
 * round and O(n^2) an order found.
 */
export function orderPairs(
  distances: Distances,
  pairs: readonly Pair[],
  duration: Int32Array,
): readonly Pair[] | null {
  if (!distances.consistent) return null;
  let open = pairs;
  for (;;) {
    const before = open.length;
    const left: Pair[] = [];
    for (const pair of open) {
      const { first, second } = pair;
      const firstCan = distances.at(second, first) + duration[first] <= 0;
      const secondCan = distances.at(first, second) + duration[second] <= 0;
      if (!firstCan && !secondCan) return null;
      if (firstCan && secondCan) left.push(pair);
      else if (firstCan) distances.add(first, second, duration[first]);
      else distances.add(second, first, duration[second]);
    }
    if (left.length === before) return left;
    open = left;
  }
}

/**
 * The arcs that the closed distances need: those that no third node implies. A node on a
 * cycle of length zero with either end implies nothing, or whole cycles would vanish. O(n^3).
 */
export function essentialArcs(distances: Distances): readonly [number, number, number][] {
  const { nodes, table } = distances;
  const arcs: [number, number, number][] = [];
  for (let i = 0; i < nodes; i++) {
    for (let j = 0; j < nodes; j++) {
      const weight = table[i * nodes + j];
      if (i === j || weight === NO_PATH) continue;
      let implied = false;
      for (let k = 0; k < nodes && !implied; k++) {
        if (k === i || k === j) continue;
        const head = table[i * nodes + k];
        const tail = table[k * nodes + j];
        implied =
          head !== NO_PATH &&
          tail !== NO_PATH &&
          head + tail >= weight &&
          head + table[k * nodes + i] < 0 &&
          tail + table[j * nodes + k] < 0;
      }
      if (!implied) arcs.push([i, j, weight]);
    }
  }
  return arcs;
}

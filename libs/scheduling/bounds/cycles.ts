import type { Problem } from '../model/problem.ts';
import { boundTo, type Arc } from './arc.ts';
import { isCertain, type Assumed, type Root } from './domains.ts';
import { leastWait, mostWait } from './lag-constants.ts';

/** `to` is at least `weight` after `from`; nodes are 2a (start) and 2a + 1 (finish). `lag` is -1 for a duration. */
interface Edge {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
  readonly lag: number;
}

/** A circle of lags that asks an activity to be later than itself. */
export interface Circle {
  readonly activities: readonly number[];
  readonly lags: readonly number[];
  /** By how many minutes. */
  readonly excess: number;
}

/** The fewest and the most minutes between start and finish; Infinity where no most is known. */
function lengths({ problem, ways }: Root, a: number): { least: number; most: number } {
  const { fixed } = problem.activities[a];
  if (fixed?.kind === 'frozen') {
    const start = fixed.start ?? 0;
    const length = (fixed.finish ?? start) - start;
    return { least: length, most: length };
  }
  let least = Infinity;
  let most = 0;
  for (const way of ways[a]) {
    least = Math.min(least, way.minutes);
    most = Math.max(most, way.pausing !== null && way.longest > 0 ? Infinity : way.longest);
  }
  return { least: least === Infinity ? 0 : least, most };
}

/** What a lag from frozen work says, whose anchor is known and may lie before minute 0, where the constants do not hold. */
function exactWait(problem: Problem, arc: Arc): number | null {
  const { fixed } = problem.activities[arc.from];
  if (fixed?.kind !== 'frozen') return null;
  const start = fixed.start ?? 0;
  const at = arc.fromFinish ? (fixed.finish ?? start) : start;
  return boundTo(problem, arc, at) - at;
}

/** Minimum distances between starts and finishes that hold for every anchor and crew. */
function edgesOf(root: Root, assumed: Assumed): Edge[] {
  const { problem, arcs } = root;
  const edges: Edge[] = [];
  problem.activities.forEach((_, a) => {
    if (!isCertain(root, assumed, a)) return;
    const { least, most } = lengths(root, a);
    edges.push({ from: 2 * a, to: 2 * a + 1, weight: least, lag: -1 });
    edges.push({ from: 2 * a + 1, to: 2 * a, weight: -most, lag: -1 });
  });
  for (const arc of arcs) {
    const taken = arc.choice < 0 || assumed.taken[arc.choice] === arc.branch;
    if (!taken || !isCertain(root, assumed, arc.from) || !isCertain(root, assumed, arc.to))
      continue;
    const from = 2 * arc.from + Number(arc.fromFinish);
    const to = 2 * arc.to + Number(arc.toFinish);
    const known = exactWait(problem, arc);
    if (arc.open) edges.push({ from, to, weight: known ?? leastWait(problem, arc), lag: arc.lag });
    else
      edges.push({ from: to, to: from, weight: -(known ?? mostWait(problem, arc)), lag: arc.lag });
  }
  return edges;
}

/** The circle that parents form, if they form one. */
function circleIn(edges: readonly Edge[], parent: Int32Array): Circle | null {
  const mark = new Int32Array(parent.length);
  for (let root = 0; root < parent.length; root += 1) {
    let v = root;
    while (mark[v] === 0 && parent[v] >= 0) {
      mark[v] = root + 1;
      v = edges[parent[v]].from;
    }
    if (mark[v] !== root + 1 || parent[v] < 0) continue;
    const activities = new Set<number>();
    const lags = new Set<number>();
    let excess = 0;
    let at = v;
    do {
      const edge = edges[parent[at]];
      activities.add(edge.from >> 1);
      if (edge.lag >= 0) lags.add(edge.lag);
      excess += edge.weight;
      at = edge.from;
    } while (at !== v);
    return { activities: [...activities].reverse(), lags: [...lags].reverse(), excess };
  }
  return null;
}

/** Positive circle by longest paths (Bellman 1958), looked for after each round; null if there is none. */
export function positiveCircle(root: Root, assumed: Assumed): Circle | null {
  const edges = edgesOf(root, assumed).filter((e) => Number.isFinite(e.weight));
  const nodes = 2 * root.problem.activities.length;
  const longest = new Float64Array(nodes);
  const parent = new Int32Array(nodes).fill(-1);
  for (let round = 0; round <= nodes; round += 1) {
    let moved = false;
    for (let e = 0; e < edges.length; e += 1) {
      const edge = edges[e];
      const reach = longest[edge.from] + edge.weight;
      if (reach <= longest[edge.to]) continue;
      longest[edge.to] = reach;
      parent[edge.to] = e;
      moved = true;
    }
    if (!moved) return null;
    const circle = circleIn(edges, parent);
    if (circle) return circle;
  }
  return null;
}

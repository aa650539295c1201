import type { Assumed } from './domains.ts';
import { leastWait, mostWait } from './lag-constants.ts';
import type { Compiled } from '../search/crew/compiled.ts';

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

/** Minimum distances between starts and finishes that hold for every anchor and crew. */
function edgesOf(compiled: Compiled, assumed: Assumed): Edge[] {
  const { activities, arcs } = compiled;
  const certain = (choice: number, branch: number): boolean =>
    choice < 0 || assumed.taken[choice] === branch;
  const edges: Edge[] = [];
  activities.forEach(({ modes, frozen, choice, branch }, a) => {
    if (!certain(choice, branch)) return;
    if (frozen) {
      const length = frozen.finish - frozen.start;
      edges.push({ from: 2 * a, to: 2 * a + 1, weight: length, lag: -1 });
      edges.push({ from: 2 * a + 1, to: 2 * a, weight: -length, lag: -1 });
      return;
    }
    const least = Math.min(...modes.map((m) => (m.crews === null ? m.minutes : m.least)));
    edges.push({ from: 2 * a, to: 2 * a + 1, weight: least, lag: -1 });
    if (modes.some((m) => m.pauses || !m.complete)) return;
    const most = Math.max(
      ...modes.map((m) =>
        m.crews === null ? m.minutes : Math.max(0, ...m.crews.map((c) => c.minutes)),
      ),
    );
    edges.push({ from: 2 * a + 1, to: 2 * a, weight: -most, lag: -1 });
  });
  for (const arc of arcs) {
    const { choice, branch } = activities[arc.from];
    const other = activities[arc.to];
    if (
      !certain(choice, branch) ||
      !certain(other.choice, other.branch) ||
      !certain(arc.choice, arc.branch)
    )
      continue;
    const from = 2 * arc.from + Number(arc.fromFinish);
    const to = 2 * arc.to + Number(arc.toFinish);
    if (arc.open) edges.push({ from, to, weight: leastWait(compiled, arc), lag: arc.lag });
    else edges.push({ from: to, to: from, weight: -mostWait(compiled, arc), lag: arc.lag });
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
export function positiveCircle(compiled: Compiled, assumed: Assumed): Circle | null {
  const edges = edgesOf(compiled, assumed).filter((e) => Number.isFinite(e.weight));
  const nodes = 2 * compiled.activities.length;
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

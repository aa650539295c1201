import type { Arc } from '../../propagation/arcs.ts';
import { Distances, essentialArcs, orderPairs, type Pair } from '../../propagation/closure.ts';
import { lowerOf, upperOf } from '../../propagation/literal.ts';
import { Network, type Supply } from '../../propagation/network.ts';
import type { Use } from '../../propagation/timetable.ts';
import type { PureModel } from './pure.ts';

/**
 * Which variable is what: starts 0 .. tasks-1, then the makespan `end`, then one Boolean for
 * each open pair (1: `first` goes first).
 */
export interface Layout {
  readonly tasks: number;
  readonly end: number;
  readonly firstPair: number;
  readonly pairs: readonly Pair[];
  readonly variables: number;
}

/** What holds in every plan with a makespan of at most `target`. */
export interface Root {
  readonly target: number;
  readonly distances: Distances;
  readonly pairs: readonly Pair[];
}

/** Pairs that need more than there is of some resource together. */
function disjunctivePairs(model: PureModel): readonly Pair[] {
  const pairs: Pair[] = [];
  for (let first = 0; first < model.count; first++) {
    for (let second = first + 1; second < model.count; second++) {
      if (
        model.duration[first] > 0 &&
        model.duration[second] > 0 &&
        exclude(model, first, second)
      ) {
        pairs.push({ first, second });
      }
    }
  }
  return pairs;
}

const exclude = (model: PureModel, i: number, k: number): boolean =>
  model.demand.some((demand, r) => demand[i] + demand[k] > model.capacity[r]);

/**
 * Longest paths over starts, the makespan and the origin (the last node), closed over the
 * disjunctive pairs. Null: no plan has a makespan of at most `target`.
 */
export function closeRoot(model: PureModel, target: number): Root | null {
  const { count, duration } = model;
  for (let i = 0; i < count; i++) {
    if (duration[i] > 0 && model.demand.some((demand, r) => demand[i] > model.capacity[r]))
      return null;
  }
  const end = count;
  const origin = count + 1;
  const arcs: [number, number, number][] = [
    [origin, end, 0],
    [end, origin, -target],
    ...model.lags.map((l): [number, number, number] => [l.from, l.to, l.weight]),
  ];
  for (let i = 0; i < count; i++) {
    arcs.push([origin, i, model.release[i]], [i, origin, duration[i] - model.horizon]);
    if (model.counts[i] === 1) arcs.push([i, end, duration[i]]);
  }
  const distances = new Distances(count + 2, arcs);
  const pairs = orderPairs(distances, disjunctivePairs(model), duration);
  return pairs === null ? null : { target, distances, pairs };
}

/** The proved least makespan of a closed root. */
export const leastMakespan = (model: PureModel, root: Root): number =>
  root.distances.at(model.count + 1, model.count);

/** The network of what is left to decide after `closeRoot`. */
export function buildNetwork(model: PureModel, root: Root): { layout: Layout; network: Network } {
  const { count } = model;
  const { distances, pairs } = root;
  const origin = count + 1;
  const layout: Layout = {
    tasks: count,
    end: count,
    firstPair: count + 1,
    pairs,
    variables: count + 1 + pairs.length,
  };
  const bounds = new Int32Array(2 * layout.variables);
  for (let x = 0; x <= count; x++) {
    bounds[lowerOf(x)] = distances.at(origin, x);
    bounds[upperOf(x)] = distances.at(x, origin);
  }
  for (let x = layout.firstPair; x < layout.variables; x++) bounds[upperOf(x)] = -1;
  const arcs: Arc[] = [];
  for (const [from, to, weight] of essentialArcs(distances)) {
    if (from < origin && to < origin) arcs.push({ from, to, weight, when: -1 });
  }
  pairs.forEach(({ first, second }, k) => {
    const x = layout.firstPair + k;
    arcs.push({ from: first, to: second, weight: model.duration[first], when: lowerOf(x) });
    arcs.push({ from: second, to: first, weight: model.duration[second], when: upperOf(x) });
  });
  return { layout, network: new Network({ root: bounds, arcs, supplies: supplies(model) }) };
}

/** The resources that pairs alone do not settle. */
function supplies(model: PureModel): readonly Supply[] {
  return model.demand.flatMap((demand, r) => {
    const uses: Use[] = [];
    for (let x = 0; x < model.count; x++) {
      if (demand[x] > 0 && model.duration[x] > 0) {
        uses.push({ x, duration: model.duration[x], amount: demand[x] });
      }
    }
    const capacity = model.capacity[r];
    const total = uses.reduce((sum, u) => sum + u.amount, 0);
    if (total <= capacity || isUnary(capacity, uses)) return [];
    return [{ capacity, uses }];
  });
}

/** Whether no two uses fit together: then the pairs say all there is to say. */
function isUnary(capacity: number, uses: readonly Use[]): boolean {
  const amounts = uses.map((u) => u.amount).sort((a, b) => a - b);
  return amounts.length < 2 || amounts[0] + amounts[1] > capacity;
}

import type { Arc } from '../../propagation/arcs.ts';
import { Distances, essentialArcs, orderPairs, type Pair } from '../../propagation/closure.ts';
import { energy } from '../../propagation/energy.ts';
import { lowerOf, upperOf } from '../../propagation/literal.ts';
import { Network } from '../../propagation/network.ts';
import { timetable, type Supply, type Use } from '../../propagation/timetable.ts';
import { cliques } from './cliques.ts';
import { leastByLoad } from './load.ts';
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

/**
 * How many cliques are watched by energy, and their least work as a share of the target, in the
 * search for plans and in that for bounds. With more of them the former loses more in conflicts a
 * second than it gains.
 */
const CLIQUES = { share: 0.7, most: 2 };
const CLIQUES_FOR_BOUNDS = { share: 0.5, most: 6 };

/** A network with what its variables are. */
export interface Built {
  readonly layout: Layout;
  readonly network: Network;
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

/** The proved least makespan of a closed root: by its longest path, or by the work on a resource. */
export const leastMakespan = (model: PureModel, { distances }: Root): number =>
  Math.max(distances.at(model.count + 1, model.count), leastByLoad(model, distances));

/**
 * The network of what is left to decide after `closeRoot`. The energy rule is on long cliques, and
 * if so wished on all resources.
 */
export function buildNetwork(model: PureModel, root: Root, withEnergy: boolean): Built {
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
  arcs.push(...pairArcs(model, layout.firstPair, pairs));
  const needed = supplies(model);
  const propagators = needed.map(timetable);
  if (withEnergy) propagators.push(...needed.map(energy));
  const { share, most } = withEnergy ? CLIQUES_FOR_BOUNDS : CLIQUES;
  const excluding = (i: number, k: number): boolean => exclude(model, i, k);
  const unary = cliques(model.duration, excluding, share * root.target, most);
  propagators.push(...unary.map(energy));
  return { layout, network: new Network({ root: bounds, arcs, propagators }) };
}

/** The two orders of each pair, under its Boolean. */
export const pairArcs = (
  { duration }: PureModel,
  firstPair: number,
  pairs: readonly Pair[],
): readonly Arc[] =>
  pairs.flatMap(({ first, second }, k) => [
    { from: first, to: second, weight: duration[first], when: lowerOf(firstPair + k) },
    { from: second, to: first, weight: duration[second], when: upperOf(firstPair + k) },
  ]);

/** The resources of which there may be too little. */
export function scarce(model: PureModel): readonly Supply[] {
  return model.demand.flatMap((demand, r) => {
    const uses: Use[] = [];
    for (let x = 0; x < model.count; x++) {
      if (demand[x] > 0 && model.duration[x] > 0) {
        uses.push({ x, duration: model.duration[x], amount: demand[x] });
      }
    }
    const capacity = model.capacity[r];
    const total = uses.reduce((sum, u) => sum + u.amount, 0);
    return total <= capacity ? [] : [{ capacity, uses }];
  });
}

/** Those of them that pairs alone do not settle. */
export const supplies = (model: PureModel): readonly Supply[] =>
  scarce(model).filter(({ capacity, uses }) => !isUnary(capacity, uses));

/** Whether no two uses fit together: then the pairs say all there is to say. */
function isUnary(capacity: number, uses: readonly Use[]): boolean {
  const amounts = uses.map((u) => u.amount).sort((a, b) => a - b);
  return amounts.length < 2 || amounts[0] + amounts[1] > capacity;
}

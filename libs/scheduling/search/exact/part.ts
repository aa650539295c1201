import type { Arc } from '../../propagation/arcs.ts';
import { essentialArcs } from '../../propagation/closure.ts';
import { lowerOf, upperOf } from '../../propagation/literal.ts';
import { Network } from '../../propagation/network.ts';
import { pairArcs, scarce, supplies, type Built, type Root } from './layout.ts';
import { timetable } from '../../propagation/timetable.ts';
import type { PureModel } from './pure.ts';

/**
 * Networks of a problem in which all but some activities keep their order in a given plan: for
 * neighbourhood search. Which units of a resource pass from whom to whom in the plan gives
 * precedences (a partial-order schedule: N. Policella, A. Cesta, A. Oddi, S. F. Smith, "From
 * precedence constraint posting to partial order schedules", AI Communications 20 (2007) 163-180);
 * those among the activities that keep their order are added as arcs.
 */
export class Parts {
  private readonly model: PureModel;
  private readonly root: Root;
  private readonly lags: readonly Arc[];
  private readonly supplies: ReturnType<typeof supplies>;
  /** Unary ones too: the pairs of what keeps its order are left out. */
  private readonly chained: ReturnType<typeof scarce>;

  /** The root may be that of a larger makespan. O(n^3). */
  constructor(model: PureModel, root: Root) {
    this.model = model;
    this.root = root;
    const origin = model.count + 1;
    this.lags = essentialArcs(root.distances).flatMap(([from, to, weight]) =>
      from < origin && to < origin ? [{ from, to, weight, when: -1 }] : [],
    );
    this.supplies = supplies(model);
    this.chained = scarce(model);
  }

  /** The network of plans of at most `target` in which the activities not `loose` keep their order in `starts`. */
  build(starts: Int32Array, loose: Uint8Array, target: number): Built {
    const { model, root } = this;
    const { count } = model;
    const pairs = root.pairs.filter((p) => loose[p.first] === 1 || loose[p.second] === 1);
    const firstPair = count + 1;
    const layout = {
      tasks: count,
      end: count,
      firstPair,
      pairs,
      variables: firstPair + pairs.length,
    };
    const bounds = new Int32Array(2 * layout.variables);
    for (let x = 0; x <= count; x++) {
      bounds[lowerOf(x)] = root.distances.at(count + 1, x);
      const tail = x === count ? 0 : root.distances.at(x, count);
      bounds[upperOf(x)] = Math.max(root.distances.at(x, count + 1), tail - target);
    }
    for (let x = firstPair; x < layout.variables; x++) bounds[upperOf(x)] = -1;
    const arcs = [...this.lags, ...this.kept(starts, loose), ...pairArcs(model, firstPair, pairs)];
    return {
      layout,
      network: new Network({ root: bounds, arcs, propagators: this.supplies.map(timetable) }),
    };
  }

  /** The precedences by which the activities not loose pass the resources on. */
  private kept(starts: Int32Array, loose: Uint8Array): Arc[] {
    const { duration } = this.model;
    const order = Array.from(starts, (_, i) => i)
      .filter((i) => loose[i] === 0 && duration[i] > 0)
      .sort((a, b) => starts[a] - starts[b]);
    const arcs = new Map<number, Arc>();
    for (const { capacity, uses } of this.chained) {
      const amount = new Int32Array(this.model.count);
      for (const use of uses) amount[use.x] = use.amount;
      this.chain(order, starts, amount, capacity, arcs);
    }
    return [...arcs.values()];
  }

  /** Gives each activity units that are free, the last freed first, so that few arcs are needed. */
  private chain(
    order: readonly number[],
    starts: Int32Array,
    amount: Int32Array,
    capacity: number,
    arcs: Map<number, Arc>,
  ): void {
    const { count, duration } = this.model;
    // Lots of units by who had them last, -1: nobody.
    let lots: { last: number; units: number }[] = [{ last: -1, units: capacity }];
    const freeAt = (last: number): number => (last < 0 ? -Infinity : starts[last] + duration[last]);
    for (const i of order) {
      let need = amount[i];
      if (need === 0) continue;
      const known = (last: number): number =>
        last >= 0 &&
        (arcs.has(last * count + i) || this.root.distances.at(last, i) >= duration[last])
          ? 1
          : 0;
      lots.sort((a, b) => known(b.last) - known(a.last) || freeAt(b.last) - freeAt(a.last));
      for (const lot of lots) {
        if (need === 0) break;
        if (freeAt(lot.last) > starts[i]) continue;
        const taken = Math.min(need, lot.units);
        lot.units -= taken;
        need -= taken;
        if (lot.last >= 0 && known(lot.last) === 0) {
          arcs.set(lot.last * count + i, {
            from: lot.last,
            to: i,
            weight: duration[lot.last],
            when: -1,
          });
        }
      }
      lots = lots.filter((lot) => lot.units > 0);
      lots.push({ last: i, units: amount[i] });
    }
  }
}

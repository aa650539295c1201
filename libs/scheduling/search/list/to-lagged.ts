import { NO_PATH, type Distances } from '../../propagation/closure.ts';
import type { PureModel } from '../exact/pure.ts';
import { LaggedPass } from './pass-lagged.ts';
import type { Lagged, Lags } from './lagged.ts';
import { pack } from './packing.ts';
import { linksOf, rightOrder, workOf, type Links } from './scheme.ts';

/**
 * The scheme of a model with its root distances (activities, end, origin). Backwards, a start is
 * counted from the end of the plan to the activity's finish, so that a lag from i to j becomes one
 * from j to i, longer by the duration of j and shorter by that of i.
 */
export function toLagged(model: PureModel, distances: Distances): Lagged {
  const { count, duration, capacity, demand } = model;
  const lags: [Lags, Lags] = [forwards(model, distances), backwards(model, distances)];
  const [ahead, back] = [relation(lags[0], count), relation(lags[1], count)];
  const before: [Links, Links] = [linksOf(count, ahead), linksOf(count, back)];
  const after: [Links, Links] = [linksOf(count, turned(ahead)), linksOf(count, turned(back))];
  const scheme: Lagged = {
    count,
    duration,
    before,
    after,
    urgency: [urgencyOf(lags[0]), urgencyOf(lags[1])],
    order: [orderOf(before[0], after[0]), orderOf(before[1], after[1])],
    least: distances.at(count + 1, count),
    work: workOf(duration, demand, capacity),
    pass: () => new LaggedPass(scheme),
    parallel: null,
    lags,
    packing: pack(capacity, demand, count),
    horizon: model.horizon,
  };
  return scheme;
}

function forwards(model: PureModel, distances: Distances): Lags {
  const { count, duration } = model;
  const at = (i: number, k: number): number => distances.at(i, k);
  const each = (of: (i: number) => number): Int32Array =>
    Int32Array.from({ length: count }, (_, i) => of(i));
  return {
    after: matrix(count, (i, k) => at(k, i)),
    ahead: matrix(count, at),
    earliest: each((i) => at(count + 1, i)),
    latest: each((i) => -at(i, count + 1)),
    rest: each((i) => (at(i, count) === NO_PATH ? NO_PATH : at(i, count) - duration[i])),
  };
}

function backwards(model: PureModel, distances: Distances): Lags {
  const { count, duration, horizon } = model;
  const reversed = (i: number, k: number): number => {
    const lag = distances.at(k, i);
    return lag === NO_PATH ? NO_PATH : lag + duration[i] - duration[k];
  };
  const each = (of: (i: number) => number): Int32Array =>
    Int32Array.from({ length: count }, (_, i) => of(i));
  const head = (i: number): number => distances.at(count + 1, i);
  return {
    after: matrix(count, (i, k) => reversed(k, i)),
    ahead: matrix(count, reversed),
    earliest: each((i) => Math.max(0, distances.at(i, count) - duration[i])),
    latest: each((i) => horizon - duration[i] - head(i)),
    rest: each(head),
  };
}

function matrix(count: number, of: (i: number, k: number) => number): Int32Array {
  const cells = new Int32Array(count * count);
  for (let i = 0; i < count; i++) for (let k = 0; k < count; k++) cells[i * count + k] = of(i, k);
  return cells;
}

/** Pairs [i, k] with k before i: i starts later than k, or no earlier and k may be earlier. */
function relation({ after, ahead }: Lags, count: number): [number, number][] {
  const pairs: [number, number][] = [];
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < count; k++) {
      const lag = after[i * count + k];
      if (i !== k && (lag > 0 || (lag === 0 && ahead[i * count + k] < 0))) pairs.push([i, k]);
    }
  }
  return pairs;
}

const turned = (pairs: readonly (readonly [number, number])[]): [number, number][] =>
  pairs.map(([i, k]) => [k, i]);

/** The relation of consistent distances has no cycle. */
function orderOf(before: Links, after: Links): Int32Array {
  const order = rightOrder(before, after);
  if (order === null) throw new Error('the distances are not consistent');
  return order;
}

/** What says nothing about the end is not urgent. */
const urgencyOf = ({ rest }: Lags): Int32Array => rest.map((to) => Math.max(0, to));

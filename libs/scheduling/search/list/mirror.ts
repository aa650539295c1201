import { Distances, NO_PATH } from '../../propagation/closure.ts';
import type { PureModel } from '../exact/pure.ts';

/**
 * The distances between starts and the origin (the last node) with time reversed about the
 * horizon: a start s becomes horizon - s - duration. Resources stay what they are.
 */
export function mirrored(model: PureModel, distances: Distances): Distances {
  const { count, duration, horizon } = model;
  const origin = count + 1;
  const arcs: [number, number, number][] = [];
  for (let i = 0; i < count; i++) {
    arcs.push([origin, i, horizon + distances.at(i, origin) - duration[i]]);
    arcs.push([i, origin, distances.at(origin, i) + duration[i] - horizon]);
    for (let j = 0; j < count; j++) {
      const ahead = distances.at(i, j);
      if (i !== j && ahead !== NO_PATH) arcs.push([j, i, ahead + duration[j] - duration[i]]);
    }
  }
  return new Distances(count + 2, arcs);
}

/** The start on the other side of the mirror. */
export const reflect = (model: PureModel, starts: Int32Array): Int32Array =>
  starts.map((start, i) => model.horizon - start - model.duration[i]);

import { random } from '#kernel/random.ts';
import type { PureModel } from '../exact/pure.ts';
import { schemeOf } from './improve.ts';
import { Sampler } from './sampling.ts';
import { NO_PLAN, type Direction } from './scheme.ts';
import { Sorter } from './sorter.ts';

/** Lists drawn before the passes are counted, and passes made from each. */
const LISTS = 64;
const TURNS = 3;

/**
 * Generation alone, for benches: lists are sampled here, and `run` makes serial
 * passes over them in turn, each pressed to the other side and back, until so many passes are done.
 * `run` gives the shortest makespan. Null if the model has no plan by its root closure.
 */
export function generator(
  model: PureModel,
  seed: number,
): { readonly run: (passes: number) => number } | null {
  const scheme = schemeOf(model);
  if (scheme === null) return null;
  const { count } = scheme;
  const sampler = new Sampler(scheme, random(seed));
  const sorter = new Sorter(scheme);
  const pass = scheme.pass();
  const lists = Array.from({ length: LISTS }, () => {
    const list = new Int32Array(count);
    sampler.draw(0, 1, list);
    return list;
  });
  const finish = new Int32Array(count);
  const list = new Int32Array(count);
  const run = (passes: number): number => {
    let shortest = NO_PLAN;
    for (let done = 0, k = 0; done < passes; k++) {
      list.set(lists[k % LISTS]);
      let direction: Direction = 0;
      for (let turn = 0; turn < TURNS && done < passes; turn++) {
        const makespan = pass.run(list, direction, finish);
        done++;
        if (makespan === NO_PLAN) break;
        shortest = Math.min(shortest, makespan);
        sorter.sort(finish, makespan, direction, list, 0);
        direction = direction === 0 ? 1 : 0;
      }
    }
    return shortest;
  };
  return { run };
}

import type { Random } from '#kernel/random.ts';
import type { Anchor, Choice, Lag } from '../../model/problem.ts';
import { chance, pick, range, shuffled } from '../draw.ts';
import { meetings, type Tables } from './delays.ts';
import type { Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

const anchors: readonly Anchor[] = ['start', 'finish'];

/** A lag between two activities that their places meet; anything goes where one is absent. */
function lagBetween(
  rng: Random,
  world: World,
  tables: Tables,
  sketches: readonly Sketch[],
  pair: readonly [number, number],
): Omit<Lag, 'id' | 'source'> {
  const [from, to] = pair;
  const fromAnchor = pick(rng, anchors);
  const toAnchor = pick(rng, anchors);
  const bound = chance(rng, 0.6) ? 'open' : 'close';
  const a = sketches[from].place;
  const b = sketches[to].place;
  const start = rng.below(world.horizon);
  const fns = meetings(
    rng,
    world,
    tables,
    bound,
    sketches[from],
    a ? a[fromAnchor] : start,
    b ? b[toAnchor] : Math.min(world.horizon, start + rng.below(share(world.clock, 1))),
  );
  const kind = bound === 'open' ? pick(rng, ['sequence', 'sand', 'handle', 'flash']) : 'bond';
  return { from, fromAnchor, to, toAnchor, bound, fns, kind };
}

export interface Links {
  readonly lags: readonly Lag[];
  readonly choices: readonly Choice[];
  readonly branches: readonly number[];
}

/** Branches of absent activities beside branches that were taken; lags inside and across. */
export function links(
  rng: Random,
  world: World,
  tables: Tables,
  sketches: readonly Sketch[],
): Links {
  const every = range(sketches.length);
  const lags: Lag[] = [];
  const add = (lag: Omit<Lag, 'id' | 'source'>): number => {
    const id = `lag-${lags.length}`;
    return lags.push({ ...lag, id, source: `link-${id}` }) - 1;
  };
  const pairs = (count: number): [number, number][] =>
    range(count).map(() => [pick(rng, every), pick(rng, every)]);
  // From hardly any lag to more than one for each activity.
  const density = 0.2 + rng.unit() * 1.1;
  for (const pair of pairs(Math.ceil(sketches.length * density)))
    add(lagBetween(rng, world, tables, sketches, pair));

  const absent = shuffled(
    rng,
    every.filter((a) => sketches[a].place === null),
  );
  const free = shuffled(
    rng,
    every.filter((a) => sketches[a].place !== null),
  );
  const choices: Choice[] = [];
  const branches: number[] = [];
  while (absent.length > 0) {
    const taken = {
      activities: free.splice(0, rng.below(3)),
      lags: pairs(rng.below(3)).map((pair) => add(lagBetween(rng, world, tables, sketches, pair))),
    };
    // The lags of a branch not taken may contradict the plan.
    const others = range(chance(rng, 0.4) ? 2 : 1).map(() => ({
      activities: absent.splice(0, 1 + rng.below(2)),
      lags: pairs(rng.below(3)).map((pair) => {
        const lag = lagBetween(rng, world, tables, sketches, pair);
        const minutes = rng.below(share(world.clock, 0.3));
        return add({ ...lag, fns: [{ kind: 'constant', minutes }] });
      }),
    }));
    const all = shuffled(rng, [taken, ...others]);
    branches.push(all.indexOf(taken));
    const id = `choice-${choices.length}`;
    choices.push({
      id,
      branches: all.map((branch, b) => ({ id: `${id}-${b}`, ...branch })),
      source: `step-${id}`,
    });
  }
  return { lags, choices, branches };
}

import type { Random } from '#kernel/random.ts';
import type { Assignment } from '../model/plan.ts';
import type { FixedWork, LagFunction, Mode } from '../model/problem.ts';
import { safety, type Tables } from './delays.ts';
import { between, chance, pick, range, sample } from './draw.ts';
import { settle, type Ground, type Slot } from './ground.ts';
import { crewed, type Crewed, type Sort } from './modes.ts';
import { part } from './world.ts';

/** An activity with its place in the planted plan; `slot` is null where it is absent. */
export interface Sketch {
  readonly modes: readonly Mode[];
  readonly mode: number;
  readonly crew: readonly Assignment[];
  readonly slot: Slot | null;
  readonly fixed: FixedWork | null;
  readonly until: LagFunction | null;
}

const sorts: readonly Sort[] = ['wet', 'wet', 'wet', 'dusty', 'dusty', 'clean', 'clean', 'wait'];

const assignments = ({ builders, serves }: Crewed): Assignment[] =>
  builders.map((builder, i) => ({ builder, demand: serves[i] }));

/** Something that nobody does and that always has a place. */
function waiting(rng: Random, g: Ground, from: number): Sketch {
  const { mode, minutes } = crewed(rng, g.world, 'wait', 0);
  const draft = { mode, builders: [], minutes, safeAt: null, frozen: false };
  const slot = settle(g, draft, from);
  return { modes: [mode], mode: 0, crew: [], slot, fixed: null, until: null };
}

/** Work that has happened: anybody, at any hour, for any time. */
function happened(rng: Random, g: Ground, resources: number): Sketch | null {
  const { world } = g;
  const { mode } = crewed(rng, world, pick(rng, ['wet', 'dusty', 'clean']), resources);
  const builders = sample(rng, range(world.builders.length), between(rng, 1, 2));
  const minutes = between(rng, 1, part(world.clock, 0.2));
  const slot = settle(
    g,
    { mode, builders, minutes, safeAt: null, frozen: true },
    rng.below(part(world.clock, 0.6)),
  );
  if (!slot) return null;
  return {
    modes: [mode],
    mode: 0,
    crew: builders.map((builder) => ({ builder, demand: 0 })),
    slot,
    fixed: { kind: 'frozen', start: slot.start, finish: slot.finish, builders },
    until: null,
  };
}

/** The foreman's wish that this very slot or crew be kept. */
function wish(rng: Random, slot: Slot, builders: readonly number[]): FixedWork | null {
  if (!chance(rng, 0.15)) return null;
  const start = chance(rng, 0.7) ? slot.start : null;
  const own = start === null || chance(rng, 0.5) ? builders : null;
  return { kind: 'set', start, finish: null, builders: own };
}

/** One activity of `resources` resources, placed at or after `from` where it can be. */
export function sketch(
  rng: Random,
  g: Ground,
  tables: Tables,
  options: { resources: number; from: number; absent: boolean; frozen: boolean },
): Sketch {
  const { world } = g;
  const { resources, from } = options;
  const frozen = options.frozen ? happened(rng, g, resources) : null;
  if (frozen) return frozen;
  const sort = pick(rng, sorts);
  const ways = range(chance(rng, 0.35) ? 2 : 1).map(() => crewed(rng, world, sort, resources));
  const mode = rng.below(ways.length);
  const way = ways[mode];
  const surface = sort === 'wet' && chance(rng, 0.7) ? safety(rng, world, tables) : null;
  const base = { modes: ways.map((one) => one.mode), mode, until: surface?.until ?? null };
  if (options.absent) return { ...base, crew: [], slot: null, fixed: null };
  const draft = {
    mode: way.mode,
    builders: way.builders,
    minutes: way.minutes,
    safeAt: surface?.safeAt ?? null,
    frozen: false,
  };
  const slot = settle(g, draft, from);
  if (!slot) return waiting(rng, g, from);
  return { ...base, crew: assignments(way), slot, fixed: wish(rng, slot, way.builders) };
}

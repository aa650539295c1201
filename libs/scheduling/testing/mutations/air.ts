import type { Random } from '#kernel/random.ts';
import { opensAt } from '../../model/lag.ts';
import { pick } from '../draw.ts';
import type { Planted } from '../planted.ts';
import { any, modeOf, probed, replaced, type Mutant, type Mutation } from './edit.ts';

/** Dust from a room of its own reaches wet work: it settles just before, or begins just after. */
function dustBesideWet(source: Planted, rng: Random): Mutant | null {
  const { problem, plan } = source;
  const wet = any(
    rng,
    plan.placements.filter((one) => {
      const { air, space } = modeOf(problem, one);
      return air === 'wet' && space !== null && one.start < one.finish;
    }),
  );
  if (!wet) return null;
  const { space } = modeOf(problem, wet);
  if (space === null) return null;
  const settling = pick(rng, [0, 1, 20]);
  const room = { id: 'tight', dustReaches: [space], settling, source: 'tight' };
  const roomed = { plan, problem: { ...problem, spaces: [...problem.spaces, room] } };
  const safe = problem.surfaces
    .filter((surface) => surface.activity === wet.activity)
    .map((surface) => opensAt(problem, surface.until, wet.finish));
  const minutes = 1 + rng.below(15);
  const before = rng.below(2) === 0;
  const start = before ? wet.start - settling - minutes : Math.max(wet.finish, ...safe);
  const step = before ? 1 : -1;
  if (start < 0 || start + minutes > problem.horizon) return null;
  const at = (minute: number): Planted =>
    probed(
      roomed,
      { start: minute, end: minute + minutes },
      { mode: { space: problem.spaces.length, air: 'dusty' } },
    );
  return { before: at(start), after: at(start + step) };
}

/** A film in a room of its own that dusty work reaches: spread when the dust has settled, or safe when it begins. */
function wetBesideDust(source: Planted, rng: Random): Mutant | null {
  const { problem, plan } = source;
  const dusty = any(
    rng,
    plan.placements.filter((one) => {
      const { air, space } = modeOf(problem, one);
      return air === 'dusty' && space !== null && one.segments.length > 0;
    }),
  );
  if (!dusty) return null;
  const { space } = modeOf(problem, dusty);
  const span = any(rng, dusty.segments);
  if (space === null || !span) return null;
  const { settling, dustReaches } = problem.spaces[space];
  const own = problem.spaces.length;
  const reaching = { ...problem.spaces[space], dustReaches: [...dustReaches, own] };
  const room = { id: 'tight', dustReaches: [], settling: 0, source: 'tight' };
  const minutes = 1 + rng.below(15);
  const open = rng.below(30);
  const film = {
    activity: problem.activities.length,
    until: { kind: 'constant', minutes: open },
    source: 'tight',
  } as const;
  const roomed = {
    plan,
    problem: {
      ...problem,
      spaces: [...replaced(problem.spaces, space, reaching), room],
      surfaces: [...problem.surfaces, film],
    },
  };
  const after = rng.below(2) === 0;
  const start = after ? span.end + settling : span.start - open - minutes;
  const step = after ? -1 : 1;
  if (start < 0 || start + minutes > problem.horizon) return null;
  const at = (minute: number): Planted =>
    probed(roomed, { start: minute, end: minute + minutes }, { mode: { space: own, air: 'wet' } });
  return { before: at(start), after: at(start + step) };
}

export const dust: Mutation = (source, rng) =>
  rng.below(2) === 0 ? dustBesideWet(source, rng) : wetBesideDust(source, rng);

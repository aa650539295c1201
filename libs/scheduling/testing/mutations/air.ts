import type { Random } from '#kernel/random.ts';
import { functionFor, opensAt } from '../../model/lag.ts';
import type { Placement } from '../../model/plan.ts';
import type { DustReach, Interval, Problem } from '../../model/problem.ts';
import { pick } from '../draw.ts';
import type { Planted } from '../planted.ts';
import { any, modeOf, probed, replaced, sliding, type Mutant, type Mutation } from './edit.ts';

/** Whether what carries the work's film is moved at some time. */
function travels({ problem, plan }: Planted, { activity }: Placement): boolean {
  const [carrier] = problem.activities[activity].parts;
  return plan.placements.some(
    (one) =>
      modeOf(problem, one).movesTo !== null &&
      problem.activities[one.activity].parts.includes(carrier),
  );
}

/** Dust from a room of its own reaches wet work: it settles just before, or begins just after. */
function dustBesideWet(source: Planted, rng: Random): Mutant | null {
  const { problem, plan } = source;
  const wet = any(
    rng,
    plan.placements.filter((one) => {
      const { air, space } = modeOf(problem, one);
      const stays = !travels(source, one);
      return air === 'wet' && space !== null && one.start < one.finish && stays;
    }),
  );
  if (!wet) return null;
  const { space } = modeOf(problem, wet);
  if (space === null) return null;
  const settling = pick(rng, [0, 1, 20]);
  const room = { id: 'tight', dustReaches: [{ space, barrier: null }], settling, source: 'tight' };
  const roomed = { plan, problem: { ...problem, spaces: [...problem.spaces, room] } };
  const safe = problem.surfaces
    .filter((surface) => surface.activity === wet.activity)
    .map(({ until, coveredBy }) => {
      const covers = plan.placements.filter((one) => coveredBy.includes(one.activity));
      return covers.length > 0
        ? Math.min(...covers.map(({ start }) => start))
        : opensAt(problem, functionFor(until, wet.mode), wet.finish);
    });
  const minutes = 1 + rng.below(15);
  const before = rng.below(2) === 0;
  const start = before ? wet.start - settling - minutes : Math.max(wet.finish, ...safe);
  const span = { start, end: start + minutes };
  return sliding(roomed, span, before ? 1 : -1, {
    mode: { space: problem.spaces.length, air: 'dusty' },
  });
}

/** A room of its own that dust of some planted work reaches, and when that is there. */
interface Beside {
  readonly source: Planted;
  readonly room: number;
  readonly dust: Interval;
}

/** `barrier`: the only way, a door that is open at first. */
function besideDust(
  { problem, plan }: Planted,
  rng: Random,
  barrier: number | null,
): Beside | null {
  const dusty = any(
    rng,
    plan.placements.filter((one) => {
      const { air, space } = modeOf(problem, one);
      return air === 'dusty' && space !== null && one.start >= 0;
    }),
  );
  const segment = dusty && any(rng, dusty.segments);
  const space = dusty && modeOf(problem, dusty).space;
  if (space === null || !segment) return null;
  const { settling, dustReaches } = problem.spaces[space];
  const room = problem.spaces.length;
  const reach: DustReach = { space: room, barrier };
  const reaching = { ...problem.spaces[space], dustReaches: [...dustReaches, reach] };
  const own = { id: 'tight', dustReaches: [], settling: 0, source: 'tight' };
  const spaces = [...replaced(problem.spaces, space, reaching), own];
  const barriers =
    barrier === null
      ? problem.barriers
      : [...problem.barriers, { id: 'tight', closed: false, source: 'tight' }];
  return {
    source: { plan, problem: { ...problem, spaces, barriers } },
    room,
    dust: { start: segment.start, end: segment.end + settling },
  };
}

/** A film of the activity that is added next, open for so long after its finish. */
const filmed = (problem: Problem, minutes: number, coveredBy: readonly number[] = []): Problem => ({
  ...problem,
  surfaces: [
    ...problem.surfaces,
    {
      id: 'tight',
      activity: problem.activities.length,
      until: [{ kind: 'constant', minutes }],
      coveredBy,
      source: 'tight',
    },
  ],
});

/** A film spread when the dust has settled, or safe when it begins. */
function wetBesideDust(source: Planted, rng: Random): Mutant | null {
  const beside = besideDust(source, rng, null);
  if (!beside) return null;
  const { room, dust } = beside;
  const open = rng.below(30);
  const roomed = { plan: source.plan, problem: filmed(beside.source.problem, open) };
  const minutes = 1 + rng.below(15);
  const after = rng.below(2) === 0;
  const start = after ? dust.end : dust.start - open - minutes;
  const span = { start, end: start + minutes };
  return sliding(roomed, span, after ? -1 : 1, { mode: { space: room, air: 'wet' } });
}

/** A film that would be open for ever is covered when the dust comes; then a minute late. */
function covered(source: Planted, rng: Random): Mutant | null {
  const beside = besideDust(source, rng, null);
  if (!beside) return null;
  const { room, dust } = beside;
  const { problem } = beside.source;
  const cover = problem.activities.length + 1;
  const open = filmed(problem, 4 * problem.horizon, [cover]);
  const end = dust.start - rng.below(5);
  const start = end - 1 - rng.below(5);
  if (start < 0) return null;
  const air = pick(rng, ['wet', 'clean'] as const);
  const spread = probed(
    { problem: open, plan: source.plan },
    { start, end },
    { mode: { space: room, air } },
  );
  return sliding(spread, { start: dust.start, end: dust.start + rng.below(5) }, 1, {});
}

/** A part with a film is carried to where the dust has just settled, or from where it just comes. */
function carried(source: Planted, rng: Random): Mutant | null {
  const beside = besideDust(source, rng, null);
  if (!beside) return null;
  const { room, dust } = beside;
  const { problem } = beside.source;
  const far = room + 1;
  const away = rng.below(2) === 0;
  const carrier = problem.parts.length;
  const made = filmed(
    {
      ...problem,
      spaces: [...problem.spaces, { id: 'far', dustReaches: [], settling: 0, source: 'tight' }],
      parts: [...problem.parts, { id: 'tight', space: away ? room : far, source: 'tight' }],
    },
    4 * problem.horizon,
  );
  const minutes = 1 + rng.below(5);
  const move = away
    ? { start: dust.start - minutes, end: dust.start }
    : { start: dust.end, end: dust.end + minutes };
  const start = move.start - 3 - rng.below(5);
  if (start < 0) return null;
  const spread = probed(
    { problem: made, plan: source.plan },
    { start, end: start + 1 + rng.below(2) },
    { parts: [carrier], mode: { space: away ? room : far, air: 'wet' } },
  );
  return sliding(spread, move, away ? 1 : -1, {
    parts: [carrier],
    mode: { movesTo: away ? far : room },
  });
}

/** A door is closed when the dust comes, or opened when it has settled; then a minute off. */
function throughDoor(source: Planted, rng: Random): Mutant | null {
  const door = source.problem.barriers.length;
  const beside = besideDust(source, rng, door);
  if (!beside) return null;
  const { room, dust } = beside;
  const closes = rng.below(2) === 0;
  const { problem } = beside.source;
  const shut = replaced(problem.barriers, door, { ...problem.barriers[door], closed: !closes });
  const minutes = 1 + rng.below(5);
  const act = closes
    ? { start: dust.start - minutes, end: dust.start }
    : { start: dust.end, end: dust.end + minutes };
  const spread = closes
    ? { start: dust.start, end: dust.end }
    : { start: dust.end - 1, end: dust.end };
  if (spread.end > problem.horizon) return null;
  const wet = probed({ plan: source.plan, problem: { ...problem, barriers: shut } }, spread, {
    mode: { space: room, air: 'wet' },
  });
  return sliding(wet, act, closes ? 1 : -1, { mode: { barrier: { barrier: door, closes } } });
}

const ways = [dustBesideWet, wetBesideDust, covered, carried, throughDoor];

/** Dust that is a minute away from wet work, a film, a film on its way, or an open door. */
export const dust: Mutation = (source, rng) => pick(rng, ways)(source, rng);

import type { Problem } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import {
  any,
  bound,
  changing,
  changingMode,
  modeOf,
  sliding,
  touching,
  type Mutation,
} from './edit.ts';

/** The problem with one part more, which an activity works on. */
const parted = (problem: Problem, activity: number, space: number): Problem => ({
  ...changing(problem, activity, (old) => ({
    ...old,
    parts: [...old.parts, problem.parts.length],
  })),
  parts: [...problem.parts, { id: 'tight', space, source: 'tight' }],
});

const lasting = ({ plan }: Planted): Planted['plan']['placements'] =>
  plan.placements.filter(({ start, finish }) => start < finish);

/** Two works on one part, the second right beside the first, pauses included; then over it. */
export const part: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    lasting(source).filter((one) => one.start >= 0),
  );
  if (!placement || problem.spaces.length === 0) return null;
  const { activity, start, finish } = placement;
  const own = any(rng, problem.activities[activity].parts);
  const { span, step } = touching(rng, { start, end: finish });
  if (own !== null && rng.below(2) === 0) return sliding(source, span, step, { parts: [own] });
  const made = parted(problem, activity, modeOf(problem, placement).space ?? 0);
  return sliding({ problem: made, plan }, span, step, { parts: [problem.parts.length] });
};

/** A part is brought from afar to where it is worked on, just in time; then a minute late. */
export const location: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    bound(source).filter((one) => modeOf(problem, one).space !== null),
  );
  if (!placement) return null;
  const far = problem.spaces.length;
  const room = { id: 'tight', dustReaches: [], settling: 0, source: 'tight' };
  const made = { ...parted(problem, placement.activity, far), spaces: [...problem.spaces, room] };
  const end = placement.start;
  const span = { start: end - 1 - rng.below(15), end };
  return sliding({ problem: made, plan }, span, 1, {
    parts: [problem.parts.length],
    mode: { movesTo: modeOf(problem, placement).space },
  });
};

/** Two acts on one door, the second right beside the first; then over it. */
export const barrier: Mutation = (source, rng) => {
  const { problem, plan } = source;
  const placement = any(
    rng,
    lasting(source).filter((one) => one.start >= 0 && modeOf(problem, one).barrier === null),
  );
  if (!placement) return null;
  const { start, finish } = placement;
  const act = (): { barrier: number; closes: boolean } => ({
    barrier: problem.barriers.length,
    closes: rng.below(2) === 0,
  });
  const made: Problem = {
    ...changingMode(problem, placement, (mode) => ({ ...mode, barrier: act() })),
    barriers: [...problem.barriers, { id: 'tight', closed: rng.below(2) === 0, source: 'tight' }],
  };
  const { span, step } = touching(rng, { start, end: finish });
  return sliding({ problem: made, plan }, span, step, { mode: { barrier: act() } });
};

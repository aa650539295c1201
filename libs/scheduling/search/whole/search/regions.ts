import type { Random } from '#kernel/random.ts';
import type { Placement, Plan } from '../../../model/plan.ts';
import type { Problem } from '../../../model/problem.ts';

/** A part of a plan that a neighbourhood frees, by activity. */
export type Region = (plan: Plan, size: number, random: Random) => Uint8Array;

interface Distance {
  readonly activity: number;
  readonly far: number;
}

/** The nearest of some activities by a measure. */
function nearest(problem: Problem, all: readonly Distance[], size: number): Uint8Array {
  const freed = new Uint8Array(problem.activities.length);
  const sorted = all.toSorted((a, b) => a.far - b.far || a.activity - b.activity);
  for (const { activity } of sorted.slice(0, size)) freed[activity] = 1;
  return freed;
}

const gap = (a: Placement, b: Placement): number =>
  Math.max(0, a.start - b.finish, b.start - a.finish);

/** What can be set free: what has not happened. */
const open = ({ activities }: Problem, { placements }: Plan): Placement[] =>
  placements.filter(({ activity }) => activities[activity].fixed?.kind !== 'frozen');

const pick = <T>(list: readonly T[], random: Random): T | undefined =>
  list.length === 0 ? undefined : list[random.below(list.length)];

/** Whatever of a kind is done around the same time as some activity. */
const around =
  (problem: Problem, isAlike: (a: Placement, b: Placement) => boolean): Region =>
  (plan, size, random) => {
    const all = open(problem, plan);
    const seed = pick(all, random);
    if (seed === undefined) return new Uint8Array(problem.activities.length);
    const middle = (seed.start + seed.finish) / 2;
    return nearest(
      problem,
      all
        .filter((one) => isAlike(seed, one))
        .map((one) => ({
          activity: one.activity,
          far: 2 * gap(seed, one) + Math.abs((one.start + one.finish) / 2 - middle),
        })),
      size,
    );
  };

/** Two boats against each other: each one's work in the order of the plan, from some moment on. */
const boats =
  (problem: Problem): Region =>
  (plan, size, random) => {
    const all = open(problem, plan);
    const first = problem.activities[pick(all, random)?.activity ?? 0].refit;
    const second = problem.activities[pick(all, random)?.activity ?? 0].refit;
    const own = all.filter(({ activity }) => {
      const { refit } = problem.activities[activity];
      return refit === first || refit === second;
    });
    const begin = own[random.below(Math.max(1, own.length))]?.start ?? 0;
    return nearest(
      problem,
      own.map(({ activity, start, finish }) => ({
        activity,
        far: finish <= begin ? begin - finish + 1_000_000 : start - begin,
      })),
      size,
    );
  };

/** Activities tied by lags to one of them, the closest in steps first: through its cure windows. */
const chain =
  (problem: Problem): Region =>
  (plan, size, random) => {
    const all = open(problem, plan);
    const seed = pick(all, random);
    const next = new Map<number, number[]>();
    for (const { from, to } of problem.lags)
      for (const [a, b] of [
        [from, to],
        [to, from],
      ])
        next.set(a, [...(next.get(a) ?? []), b]);
    const steps = new Map<number, number>(seed === undefined ? [] : [[seed.activity, 0]]);
    for (const [a, step] of steps)
      for (const b of next.get(a) ?? []) if (!steps.has(b)) steps.set(b, step + 1);
    return nearest(
      problem,
      all.flatMap((one) => {
        const step = steps.get(one.activity);
        return step === undefined || seed === undefined
          ? []
          : [{ activity: one.activity, far: step + gap(seed, one) / 100_000 }];
      }),
      size,
    );
  };

/** A choice with all its branches, and what is done around it. */
const choice =
  (problem: Problem): Region =>
  (plan, size, random) => {
    const chosen = pick(problem.choices, random);
    const own = chosen?.branches.flatMap(({ activities }) => activities) ?? [];
    const freed = new Uint8Array(problem.activities.length);
    const here = plan.placements.filter(({ activity }) => own.includes(activity));
    const seeds = here.length > 0 ? here : plan.placements.slice(0, 1);
    const near = open(problem, plan).map((one) => ({
      activity: one.activity,
      far: Math.min(...seeds.map((seed) => gap(seed, one))),
    }));
    nearest(problem, near, Math.max(1, size - own.length)).forEach((is, a) => {
      freed[a] = is;
    });
    for (const a of own) freed[a] = 1;
    return freed;
  };

/** The kinds of region of a problem: by time, boat, builder, space, chain and choice. */
export function regionsOf(problem: Problem): Region[] {
  const { activities, choices } = problem;
  const spaceOf = ({ activity, mode }: Placement): number | null =>
    activities[activity].modes[mode].space;
  const regions = [
    around(problem, () => true),
    around(problem, (a, b) => activities[a.activity].refit === activities[b.activity].refit),
    around(problem, (a, b) =>
      a.crew.some(({ builder }) => b.crew.some((other) => other.builder === builder)),
    ),
    around(problem, (a, b) => spaceOf(a) !== null && spaceOf(a) === spaceOf(b)),
    chain(problem),
    boats(problem),
  ];
  return choices.length > 0 ? [...regions, choice(problem)] : regions;
}

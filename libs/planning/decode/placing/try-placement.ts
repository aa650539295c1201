import { check } from '#scheduling/checker/check.ts';
import { headCounts, type Start, trial, type Trial } from '#scheduling/explanation/trial.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { PlanMap } from '../../compile/trace/map.ts';
import { taskName } from '../explain/cause.ts';
import { moments, type Moments } from '../reading/moments.ts';
import type { When } from '../sheet.ts';
import { againstOf, groundOf, type Against } from './against.ts';
import { begun, breaksPromise, finishes, past, wrongSize } from './words.ts';

export interface PlacementInput {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly map: PlanMap;
  readonly task: string;
  /** ISO instant; as planned if left out. */
  readonly start?: string | undefined;
  /** Ids of the whole crew; as planned if left out or nobody. Known to the plan. */
  readonly crew?: readonly string[] | undefined;
  /** ISO instant before which nothing can begin any more; null: the plan lies in another time. */
  readonly now: string | null;
  /** The task has begun since the plan was made. */
  readonly hasBegun: boolean;
}

/** What would be so if one task of a plan were put elsewhere, all others left where they are. */
export interface TriedPlacement {
  readonly task: string;
  readonly isPossible: boolean;
  /** The first moment from the wished one on in which everybody on it works. */
  readonly start: When;
  readonly finish: When;
  readonly segments: readonly { readonly start: When; readonly finish: When }[];
  readonly crew: readonly { readonly personId: string; readonly name: string }[];
  /** What it would break, what is about the task itself first; empty where nothing. */
  readonly against: readonly Against[];
  /** What would come of it for the boat, in sentences. */
  readonly effects: readonly string[];
  /** The first later start found that nothing is against; null where it is possible, or none was. */
  readonly next: When | null;
}

/** Later starts that are tried at most. */
const LOOKS = 40;

/** The plan as the trials of one task read it. */
interface Scene {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly map: PlanMap;
  readonly placed: Placement;
  readonly builders: readonly number[] | null;
  readonly at: Moments;
  /** The first minute in which something can begin. */
  readonly now: number;
}

const minuteOf = (map: PlanMap, at: string): number =>
  Math.floor((Date.parse(at) - Date.parse(map.origin)) / 60_000);

function effectsOf({ problem, plan, map, at }: Scene, { plan: moved, placement }: Trial): string[] {
  const { refit } = problem.activities[placement.activity];
  if (refit === null) return [];
  const finish = moved.placements.reduce(
    (last, one) =>
      problem.activities[one.activity].refit === refit ? Math.max(last, one.finish) : last,
    0,
  );
  if (finish <= plan.finishes[refit]) return [];
  const { name } = map.rows[`refit:${map.refits[refit]}`];
  const { due } = problem.refits[refit];
  const told = finishes(name, at.words(finish), at.words(plan.finishes[refit]));
  return due !== null && finish > due ? [told, breaksPromise(name, at.words(due))] : [told];
}

/** What is against a trial, each once: first what names the task itself. */
function againstAll({ map, at, placed, now }: Scene, tried: Trial): Against[] {
  const ground = groundOf(tried, map, at);
  // Finishes and values are those of the plan; whoever plans again makes them anew.
  const violations = check(tried.problem, tried.plan).filter(({ kind }) => kind !== 'values');
  // Work outside everybody's hours is in no right stretches either; that it is outside is what counts.
  const told = violations.filter(({ constraint }) => constraint !== null);
  if (told.length === 0 && violations.length > 0)
    throw new Error(`a trial that is no placement: ${violations[0].message}`);
  const own = told.filter(({ activities }) => activities.includes(placed.activity));
  const others = told.filter((one) => !own.includes(one));
  const found = [...own, ...others].map((one) => againstOf(ground, one));
  const { start } = tried.placement;
  const early: Against[] =
    start < now
      ? [
          {
            reason: 'past',
            words: past(taskName(map, placed.activity), at.words(now)),
            row: null,
            tasks: [],
          },
        ]
      : [];
  const all = [...early, ...found];
  return all.filter(({ words }, k) => all.findIndex((one) => one.words === words) === k);
}

/** The first later start that nothing is against, going from one obstacle's end to the next. */
function nextFree(scene: Scene, tried: Trial): number | null {
  let last: Start = { start: tried.placement.start, obstacles: tried.obstacles };
  for (let look = 0; look < LOOKS; look += 1) {
    // What others would have to make room for does not pass by waiting.
    if (last.obstacles.length === 0 && last.start >= scene.now) return null;
    const ends = last.obstacles.map(({ until }) => until);
    const later = tried.from(Math.max(last.start + 1, scene.now, ...ends));
    if (later.start <= last.start) return null;
    last = later;
    if (last.obstacles.length > 0) continue;
    const free = trial(scene.problem, scene.plan, scene.placed, {
      start: last.start,
      builders: scene.builders,
    });
    if (free === null || againstAll(scene, free).length > 0) return null;
    return free.placement.start;
  }
  return null;
}

function shown(
  scene: Scene,
  placement: Placement,
): Pick<TriedPlacement, 'start' | 'finish' | 'segments' | 'crew'> {
  const { map, at } = scene;
  return {
    start: at.when(placement.start),
    finish: at.when(placement.finish),
    segments: placement.segments.map(({ start, end }) => ({
      start: at.when(start),
      finish: at.when(end),
    })),
    crew: placement.crew.map(({ builder }) => {
      const personId = map.people[builder];
      return { personId, name: map.rows[`person:${personId}`].name };
    }),
  };
}

function refused(
  scene: Scene,
  task: string,
  { reason, words }: Pick<Against, 'reason' | 'words'>,
): TriedPlacement {
  return {
    task,
    isPossible: false,
    ...shown(scene, scene.placed),
    against: [{ reason, words, row: null, tasks: [] }],
    effects: [],
    next: null,
  };
}

/**
 * Judges one task put somewhere else by hand, from what is stored with the plan: the checker says
 * whether it is right, and its findings are told in the yard's words. Null if the plan does not
 * have the task. The crew is known to the plan.
 */
export function tryPlacement(input: PlacementInput): TriedPlacement | null {
  const { problem, plan, map, task, start, crew = [], now, hasBegun } = input;
  const activity = map.tasks.indexOf(task);
  const placed = plan.placements.find((one) => one.activity === activity);
  if (placed === undefined) return null;
  const at = moments(map.origin, map.timeZone);
  const builders =
    crew.length === 0 ? null : [...new Set(crew)].map((person) => map.people.indexOf(person));
  const first = now === null ? 0 : minuteOf(map, now);
  const scene: Scene = { problem, plan, map, placed, builders, at, now: first };
  const name = taskName(map, activity);
  if (hasBegun || problem.activities[activity].fixed?.kind === 'frozen') {
    return refused(scene, task, { reason: 'begun', words: begun(name) });
  }
  const wished = start === undefined ? placed.start : minuteOf(map, start);
  const tried = trial(problem, plan, placed, { start: wished, builders });
  if (tried === null) {
    const sizes = headCounts(problem.activities[activity]);
    return refused(scene, task, {
      reason: 'crew',
      words: wrongSize(name, sizes, builders?.length ?? 0),
    });
  }
  const against = againstAll(scene, tried);
  const next = against.length === 0 ? null : nextFree(scene, tried);
  return {
    task,
    isPossible: against.length === 0,
    ...shown(scene, tried.placement),
    against,
    effects: effectsOf(scene, tried),
    next: next === null ? null : at.when(next),
  };
}

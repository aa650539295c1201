import type { Anchor, LagFunctions, Mode, Problem } from '../../model/problem.ts';

type Test = (problem: Problem, modes: readonly Mode[]) => boolean;

/** Somebody who can serve a crew demand of the mode, by what is wanted of them. */
function served(
  problem: Problem,
  mode: Mode,
  wanted: (builder: number, needsSenior: boolean) => boolean,
): boolean {
  return mode.crew.some((demand) =>
    problem.builders.some(({ abilities }, b) =>
      abilities.some(
        ({ skill, level, needsSenior }) =>
          skill === demand.skill && level >= demand.minLevel && wanted(b, needsSenior),
      ),
    ),
  );
}

const hasBreaks = (problem: Problem, mode: Mode): boolean =>
  served(problem, mode, (b) => problem.calendars[problem.builders[b].calendar].breaks.length > 0);

const anchored =
  (from: Anchor, to: Anchor): Test =>
  ({ lags }) =>
    lags.some(({ fromAnchor, toAnchor }) => fromAnchor === from && toAnchor === to);

const functions = ({ lags, surfaces, holds }: Problem): readonly LagFunctions[] => [
  ...lags.map(({ fns }) => fns),
  ...surfaces.map(({ until }) => until),
  ...holds.flatMap(({ ends }) => ends.flatMap((end) => (end.kind === 'lag' ? [end.fns] : []))),
];

/** Resources that some mode demands. */
const demanded = (problem: Problem, modes: readonly Mode[]): Problem['resources'] =>
  problem.resources.filter((_, r) =>
    modes.some(({ demands }) => demands.some(({ resource }) => resource === r)),
  );

const usedSlots = (problem: Problem, modes: readonly Mode[]): Problem['slotLists'] =>
  problem.slotLists.filter((_, l) => modes.some(({ slots }) => slots === l));

const isHoldPoint = (mode: Mode): boolean => mode.crew.length === 0 && mode.duration === 0;

const forbids =
  (anchor: Anchor): Test =>
  (_, modes) =>
    modes.some(({ forbidden }) => forbidden.some((f) => f.anchor === anchor && f.spans.length > 0));

const films: Test = ({ surfaces, activities }) =>
  surfaces.length > 0 || activities.some(({ modes }) => modes.some(({ air }) => air === 'wet'));

const dustTo =
  (test: (problem: Problem, from: number, to: number, barrier: number | null) => boolean): Test =>
  (problem, modes) =>
    films(problem, modes) &&
    modes.some(
      ({ air, space }) =>
        air === 'dusty' &&
        space !== null &&
        problem.spaces[space].dustReaches.some((r) => test(problem, space, r.space, r.barrier)),
    );

/** What a problem can ask for, each with the test that it does so where it can matter. */
const tests = {
  modes: (problem) => problem.activities.some(({ modes }) => modes.length > 1),
  'forbidden-start': forbids('start'),
  'forbidden-finish': forbids('finish'),
  'crew-of-several': (_, modes) =>
    modes.some(({ crew }) => crew.reduce((sum, { count }) => sum + count, 0) > 1),
  learner: (problem, modes) =>
    modes.some((mode) => served(problem, mode, (_, needsSenior) => needsSenior)),
  'relieved-breaks': (problem, modes) =>
    modes.some((m) => !m.splittable && m.breaks === 'relieved' && hasBreaks(problem, m)),
  'observed-breaks': (problem, modes) =>
    modes.some((m) => !m.splittable && m.breaks === 'observed' && hasBreaks(problem, m)),
  overtime: (problem, modes) =>
    modes.some((mode) =>
      served(
        problem,
        mode,
        (b) => problem.calendars[problem.builders[b].calendar].overtime.length > 0,
      ),
    ),
  'clean-down': (_, modes) => modes.some(({ cleanDown }) => cleanDown > 0),
  splitting: (_, modes) => modes.some(({ splittable, crew }) => splittable && crew.length > 0),
  'kept-while-paused': (_, modes) =>
    modes.some((m) => m.splittable && m.demands.some(({ keptWhilePaused }) => keptWhilePaused)),
  'capacity-steps': (problem, modes) =>
    demanded(problem, modes).some(({ steps }) => steps.length > 1),
  'resource-hours': (problem, modes) =>
    demanded(problem, modes).some(({ calendar }) => calendar !== null),
  stock: (_, modes) => modes.some(({ consumes }) => consumes.length > 0),
  'hold-by-lag': ({ holds }) => holds.some(({ ends }) => ends.some(({ kind }) => kind === 'lag')),
  'hold-by-activity': ({ holds }) =>
    holds.some(({ ends }) => ends.some(({ kind }) => kind === 'activity')),
  'part-occupied': (problem) =>
    problem.parts.some(
      (_, p) => problem.activities.filter(({ parts }) => parts.includes(p)).length > 1,
    ),
  'part-moved': (problem) =>
    problem.activities.some(
      ({ parts, modes }) => parts.length > 0 && modes.some(({ movesTo }) => movesTo !== null),
    ),
  'lag-start-start': anchored('start', 'start'),
  'lag-start-finish': anchored('start', 'finish'),
  'lag-finish-start': anchored('finish', 'start'),
  'lag-finish-finish': anchored('finish', 'finish'),
  'table-lag': (problem) => functions(problem).some((fns) => fns.some((f) => f.kind === 'table')),
  'lag-by-mode': (problem) => functions(problem).some((fns) => fns.length > 1),
  'opening-lag': ({ lags }) => lags.some(({ bound }) => bound === 'open'),
  'closing-lag': ({ lags }) => lags.some(({ bound }) => bound === 'close'),
  'choice-of-two': ({ choices }) => choices.some(({ branches }) => branches.length === 2),
  'choice-of-three': ({ choices }) => choices.some(({ branches }) => branches.length === 3),
  'directed-dust': dustTo(
    ({ spaces }, from, to) =>
      from !== to && !spaces[to].dustReaches.some(({ space }) => space === from),
  ),
  settling: dustTo(({ spaces }, from) => spaces[from].settling > 0),
  barrier: (_, modes) => modes.some(({ barrier }) => barrier !== null),
  'surface-by-lag': ({ surfaces }) => surfaces.some(({ coveredBy }) => coveredBy.length === 0),
  'surface-covered': ({ surfaces }) => surfaces.some(({ coveredBy }) => coveredBy.length > 0),
  slots: (problem, modes) => usedSlots(problem, modes).length > 0,
  notice: (problem, modes) =>
    usedSlots(problem, modes).some(({ slots }) => slots.some((s) => s.bookBy < problem.now)),
  'slot-price': (problem, modes) =>
    usedSlots(problem, modes).some(({ slots }) => slots.some(({ cost }) => cost > 0)),
  price: ({ builders }, modes) =>
    modes.some(({ cost }) => cost > 0) || builders.some(({ cost }) => cost > 0),
  'hold-point': ({ activities }) =>
    activities.some(
      ({ modes, releases }) =>
        modes.every(isHoldPoint) &&
        (releases.length > 0 || modes.some(({ slots }) => slots !== null)),
    ),
  release: ({ activities }) => activities.some(({ releases }) => releases.some(({ at }) => at > 0)),
  handovers: ({ refits }) => refits.some((r) => r.handovers.length > 0 && r.due !== null),
  due: ({ refits }) => refits.some(({ due }) => due !== null),
  frozen: ({ activities }) => activities.some(({ fixed }) => fixed?.kind === 'frozen'),
  set: ({ activities }) => activities.some(({ fixed }) => fixed?.kind === 'set'),
  published: ({ published }) => published !== null && published.tasks.length > 0,
  tolerances: (problem) => problem.tolerances.some((tolerance) => tolerance > 0),
  /** The last shift of some calendar is cut off by the end. */
  'tight-horizon': ({ calendars, horizon }) =>
    calendars.some(({ shifts }) => shifts.some(({ end }) => end === horizon)),
} satisfies Record<string, Test>;

/** Something that a small problem may have on. */
export type Feature = keyof typeof tests;

const isFeature = (name: string): name is Feature => name in tests;

export const allFeatures: readonly Feature[] = Object.keys(tests).filter(isFeature);

/** The features that a problem has on. */
export function features(problem: Problem): ReadonlySet<Feature> {
  const modes = problem.activities.flatMap((one) => one.modes);
  return new Set(allFeatures.filter((name) => tests[name](problem, modes)));
}

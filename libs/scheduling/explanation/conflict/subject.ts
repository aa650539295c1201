import type { Constraint } from '../../model/constraint.ts';
import type { Activity, Mode, Problem } from '../../model/problem.ts';

/** A constraint's name, the same for equal ones. */
export const nameOf = (constraint: Constraint): string => JSON.stringify(constraint);

const indexed = <T>(
  list: readonly T[],
  make: (one: T, index: number) => readonly Constraint[],
): Constraint[] => list.flatMap((one, index) => make(one, index));

const uses = ({ demands }: Mode, resource: number): boolean =>
  demands.some((one) => one.resource === resource && one.amount > 0);

/**
 * Everything that a plan has to respect and that `without` can take away, what is about single
 * activities first: of several explanations those are preferred.
 */
export function constraintsOf(problem: Problem): Constraint[] {
  const { activities, builders, spaces } = problem;
  const ofActivities = indexed(activities, ({ fixed, releases, modes }, activity) => [
    ...(fixed === null ? [] : [{ kind: 'fixed', activity } as const]),
    ...releases.flatMap(({ at }, release): Constraint[] =>
      at > 0 ? [{ kind: 'release', activity, release }] : [],
    ),
    ...modes.flatMap((mode, m) =>
      mode.forbidden.flatMap(({ spans }, forbidden): Constraint[] =>
        spans.length > 0 ? [{ kind: 'forbidden', activity, mode: m, forbidden }] : [],
      ),
    ),
    ...(modes.some(({ crew }) => crew.length > 0) ? [{ kind: 'crew', activity } as const] : []),
  ]);
  const reaches = spaces.flatMap(({ dustReaches }, from) =>
    [...new Set(dustReaches.map(({ space }) => space))].map((to): Constraint => ({
      kind: 'dust',
      from,
      to,
    })),
  );
  return [
    ...ofActivities,
    ...indexed(problem.lags, (_, lag) => [{ kind: 'lag', lag }]),
    ...indexed(problem.slotLists, (_, slotList) => [{ kind: 'slots', slotList }]),
    ...indexed(problem.holds, ({ amount }, hold) => (amount > 0 ? [{ kind: 'hold', hold }] : [])),
    ...indexed(problem.surfaces, (_, surface) => [{ kind: 'surface', surface }]),
    ...indexed(problem.parts, (_, part) => [{ kind: 'part', part }]),
    ...indexed(problem.barriers, (_, barrier) => [{ kind: 'barrier', barrier }]),
    ...reaches,
    ...indexed(problem.stocks, (_, stock) => [{ kind: 'stock', stock }]),
    ...indexed(problem.resources, ({ calendar }, resource): Constraint[] => [
      { kind: 'resource', resource },
      ...(calendar === null ? [] : [{ kind: 'hours', resource } as const]),
    ]),
    ...indexed(builders, ({ unlimited }, builder): Constraint[] => [
      ...(unlimited ? [] : [{ kind: 'builder', builder } as const]),
      { kind: 'calendar', builder },
    ]),
  ];
}

const which = ({ activities }: Problem, test: (one: Activity, a: number) => boolean): number[] =>
  activities.flatMap((one, a) => (test(one, a) ? [a] : []));

const mode = ({ modes }: Activity, test: (mode: Mode) => boolean): boolean => modes.some(test);

/** Activities that a builder may be asked to do, if somebody has to be asked at all. */
function servedBy(problem: Problem, builder: number, crews: ReadonlySet<number>): number[] {
  const { abilities } = problem.builders[builder];
  return which(
    problem,
    (one, a) =>
      (crews.has(a) &&
        mode(one, ({ crew }) =>
          crew.some(({ skill }) => abilities.some((own) => own.skill === skill)),
        )) ||
      one.fixed?.builders?.includes(builder) === true,
  );
}

/** Movers, covers and acts on barriers: whoever may help something open, or a part to its place. */
const helpers = (problem: Problem): number[] => {
  const covers = new Set(problem.surfaces.flatMap(({ coveredBy }) => coveredBy));
  return which(
    problem,
    (one, a) => covers.has(a) || mode(one, (m) => m.barrier !== null || m.movesTo !== null),
  );
};

/** The activities that a constraint is about; `crews`: those that need people. */
export function subjects(problem: Problem, one: Constraint, crews: ReadonlySet<number>): number[] {
  switch (one.kind) {
    case 'lag':
      return [problem.lags[one.lag].from, problem.lags[one.lag].to];
    case 'builder':
    case 'calendar':
      return servedBy(problem, one.builder, crews);
    case 'crew':
    case 'release':
    case 'forbidden':
    case 'fixed':
      return [one.activity];
    case 'resource': {
      const held = new Set(
        problem.holds.flatMap((h) => (h.resource === one.resource ? [h.activity] : [])),
      );
      return which(problem, (x, a) => held.has(a) || mode(x, (m) => uses(m, one.resource)));
    }
    case 'hours':
      return which(problem, (x) => mode(x, (m) => uses(m, one.resource)));
    case 'stock':
      return which(problem, (x) =>
        mode(x, ({ consumes }) => consumes.some((c) => c.stock === one.stock && c.amount > 0)),
      );
    case 'part':
      return which(problem, ({ parts }) => parts.includes(one.part));
    case 'dust': {
      const surfaced = new Set(problem.surfaces.map(({ activity }) => activity));
      return which(
        problem,
        (x, a) =>
          surfaced.has(a) ||
          mode(
            x,
            (m) =>
              (m.air === 'dusty' && m.space === one.from) ||
              (m.air === 'wet' && m.space === one.to),
          ),
      ).concat(helpers(problem));
    }
    case 'surface':
      return [problem.surfaces[one.surface].activity, ...problem.surfaces[one.surface].coveredBy];
    case 'barrier':
      return which(problem, (x) => mode(x, (m) => m.barrier?.barrier === one.barrier));
    case 'hold': {
      const { activity, ends } = problem.holds[one.hold];
      return [activity, ...ends.flatMap((e) => (e.kind === 'activity' ? [e.activity] : []))];
    }
    case 'slots':
      return which(problem, (x) => mode(x, (m) => m.slots === one.slotList));
    case 'choice':
      return problem.choices[one.choice].branches.flatMap(({ activities }) => activities);
    case 'horizon':
      return [];
  }
}

/** All activities that some constraints, alone in the yard, can be about. */
export function relevant(problem: Problem, constraints: readonly Constraint[]): Set<number> {
  const crews = new Set(constraints.flatMap((one) => (one.kind === 'crew' ? [one.activity] : [])));
  return new Set(constraints.flatMap((one) => subjects(problem, one, crews)));
}

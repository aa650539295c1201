import { functionFor, opensAt } from '../model/lag.ts';
import type { Hold, Mode } from '../model/problem.ts';
import type { Analysis } from './critical-path.ts';
import { isCertain } from './domains.ts';

/** An amount that is taken from `start` to `end` in every plan. */
interface Load {
  readonly start: number;
  readonly end: number;
  readonly amount: number;
}

/** Where an activity is at work in every plan: from its latest start to its earliest finish. */
function span({ domains }: Analysis, a: number): Pick<Load, 'start' | 'end'> | null {
  const start = domains.startTo[a];
  const end = domains.finishFrom[a];
  return start < end ? { start, end } : null;
}

/** The modes that an activity may still have. */
const modesOf = ({ root }: Analysis, a: number): Mode[] => {
  const { modes } = root.problem.activities[a];
  return root.modes[a].map((m) => modes[m]);
};

/** Minutes before 0, where only frozen work lies, are nobody's affair. */
function exceeds(loads: readonly Load[], capacity: (t: number) => number): boolean {
  return loads.some(({ start }) => {
    const t = Math.max(0, start);
    const used = loads.reduce(
      (sum, load) => (load.start <= t && t < load.end ? sum + load.amount : sum),
      0,
    );
    return used > capacity(t);
  });
}

/** Until when a hold lasts at least, by the finish of its holder and by certain work that ends it. */
function heldUntil(analysis: Analysis, { activity, ends }: Hold): number {
  const { root, domains, assumed } = analysis;
  const { problem } = root;
  return ends.reduce((latest, end) => {
    if (end.kind === 'activity') {
      if (!isCertain(root, assumed, end.activity)) return latest;
      const from = end.anchor === 'start' ? domains.startFrom : domains.finishFrom;
      return Math.max(latest, from[end.activity]);
    }
    const least = problem.activities[activity].modes.reduce(
      (min, _, m) =>
        Math.min(min, opensAt(problem, functionFor(end.fns, m), domains.finishFrom[activity])),
      Infinity,
    );
    return Math.max(latest, least);
  }, domains.finishFrom[activity]);
}

const asks = (mode: Mode, resource: number): number =>
  mode.demands.reduce(
    (sum, one) =>
      one.resource === resource && (one.keptWhilePaused || !mode.splittable)
        ? sum + one.amount
        : sum,
    0,
  );

/** Builders that an activity has, without pauses, in every plan: those set, or of its only crew. */
function buildersOf(analysis: Analysis, a: number): readonly number[] {
  const { problem, compiled } = analysis.root;
  const { fixed } = problem.activities[a];
  if (fixed?.kind === 'frozen') return fixed.builders ?? [];
  if (modesOf(analysis, a).some(({ splittable, crew }) => splittable || crew.length === 0))
    return [];
  if (fixed !== null && fixed.builders !== null) return fixed.builders;
  const lists = compiled.activities[a].modes;
  const sets = lists.map(({ crews, complete }) => (complete ? (crews ?? []) : []));
  const [first] = sets[0];
  const one =
    sets.length === 1 &&
    sets[0].every(({ builders }) => String(builders) === String(first.builders));
  return one && sets[0].length > 0 ? first.builders : [];
}

/**
 * Whether what activities take in every plan, from their latest starts to their earliest finishes,
 * is more than there is: of a resource, a part, a builder, a barrier, or of a stock (Lahrichi,
 * "Scheduling: the notions of hump, compulsory parts and their use in cumulative problems",
 * C. R. Acad. Sci. Paris 294, 1982). Quadratic in the work that has such a part.
 */
export function overloaded(analysis: Analysis): boolean {
  const { root, assumed } = analysis;
  const { problem } = root;
  const sure = problem.activities.flatMap((activity, a) => {
    const at = isCertain(root, assumed, a) ? span(analysis, a) : null;
    return at === null ? [] : [{ a, activity, modes: modesOf(analysis, a), ...at }];
  });
  const unit = (taken: readonly Pick<Load, 'start' | 'end'>[]): boolean =>
    exceeds(
      taken.map(({ start, end }) => ({ start, end, amount: 1 })),
      () => 1,
    );
  const crews = sure.map((one) => ({ ...one, builders: buildersOf(analysis, one.a) }));
  return (
    problem.parts.some((_, part) =>
      unit(sure.filter(({ activity }) => activity.parts.includes(part))),
    ) ||
    problem.barriers.some((_, b) =>
      unit(
        sure.filter(
          ({ modes }) => modes.length > 0 && modes.every((m) => m.barrier?.barrier === b),
        ),
      ),
    ) ||
    problem.builders.some(
      ({ unlimited }, b) =>
        !unlimited && unit(crews.filter(({ builders }) => builders.includes(b))),
    ) ||
    problem.resources.some(({ steps }, resource) => {
      const demanded = sure.map(({ start, end, modes }) => ({
        start,
        end,
        amount: modes.reduce((least, mode) => Math.min(least, asks(mode, resource)), Infinity),
      }));
      const held = problem.holds.flatMap((hold): Load[] => {
        if (hold.resource !== resource || !isCertain(root, assumed, hold.activity)) return [];
        const start = analysis.domains.startTo[hold.activity];
        return [{ start, end: heldUntil(analysis, hold), amount: hold.amount }];
      });
      const loads = [...demanded, ...held].filter(
        ({ start, end, amount }) => start < end && amount > 0 && amount < Infinity,
      );
      return exceeds(loads, (t) => steps.findLast(({ from }) => from <= t)?.capacity ?? 0);
    }) ||
    problem.stocks.some((_, stock) => leastConsumed(analysis, stock) > problem.stocks[stock].total)
  );
}

/** The least that all present work takes of a stock. */
function leastConsumed(analysis: Analysis, stock: number): number {
  const { root, assumed } = analysis;
  const { activities, choices } = root.problem;
  const least = activities.map((_, a) => {
    const amounts = modesOf(analysis, a).map(({ consumes }) =>
      consumes.reduce((sum, one) => (one.stock === stock ? sum + one.amount : sum), 0),
    );
    return amounts.length === 0 ? 0 : Math.min(...amounts);
  });
  const certain = least.reduce(
    (sum, amount, a) => (isCertain(root, assumed, a) ? sum + amount : sum),
    0,
  );
  return choices.reduce((sum, { branches }, c) => {
    if (assumed.taken[c] >= 0) return sum;
    const possible = branches.filter((_, b) => assumed.possible[c][b] === 1);
    const amounts = possible.map((branch) =>
      branch.activities.reduce((own, a) => own + least[a], 0),
    );
    return sum + Math.min(...amounts);
  }, certain);
}

import lp from 'javascript-lp-solver';
import { minutesIn, type FreeTime } from './capacity.ts';
import type { Demand, Work } from './demand.ts';
import type { Prices } from './prices.ts';

interface Model {
  readonly optimize: string;
  readonly opType: 'min';
  readonly constraints: Readonly<Record<string, { min?: number; equal?: number }>>;
  readonly variables: Readonly<Record<string, Record<string, number>>>;
}

interface Solver {
  Solve(model: Model): object;
}

/** The package's types describe its CommonJS face; what is imported here is the solver itself. */
const isSolver = (value: unknown): value is Solver =>
  typeof value === 'object' &&
  value !== null &&
  'Solve' in value &&
  typeof value.Solve === 'function';

/** The programme's solution by variable, or null where the solver found none. */
function solved(model: Model): Readonly<Record<string, unknown>> | null {
  const solver: unknown = lp;
  if (!isSolver(solver)) throw new TypeError('javascript-lp-solver has no Solve');
  const solution: Record<string, unknown> = { ...solver.Solve(model) };
  return solution['feasible'] === true ? solution : null;
}

const WEEK = 10_080;
/** Larger programmes are not worth their time; the bound then comes from plain prices. */
const MOST_ROWS = 400;
/** Prices are rounded to so many steps; any rounding is sound, since prices are only tried. */
const STEPS = 1000;

/**
 * Prices from the linear programme of crew hours by skill and week. Its dual reads: set an
 * hourly price for each kind of work and a value for each builder's hours of each week, no
 * less than what any work done then would fetch, so that all the work of the refits until
 * `end` has price 1 and the hours are worth as little as can be. Below 1, the work cannot
 * be done by `end`. The solver's floating point decides only which prices are tried.
 */
export function pricesFor(
  demand: Demand,
  work: readonly Work[],
  free: readonly FreeTime[],
  end: number,
): Prices | null {
  const total = work.reduce((sum, w) => sum + w.units, 0);
  if (total === 0) return null;
  const variables: Record<string, Record<string, number>> = {};
  const constraints: Record<string, { min?: number; equal?: number }> = { all: { equal: 1 } };
  const kinds = new Map<number, { units: number; head: number }>();
  for (const { ability, units, head } of work) {
    const known = kinds.get(ability);
    kinds.set(ability, {
      units: units + (known?.units ?? 0),
      head: Math.min(head, known?.head ?? Infinity),
    });
  }
  for (const [ability, { units }] of kinds)
    variables[`price${String(ability)}`] = { all: units / total };
  let rows = 0;
  for (let week = 0; week * WEEK < end; week += 1) {
    const from = week * WEEK;
    const to = Math.min(end, from + WEEK);
    free.forEach((time, b) => {
      const hours = `builder${String(b)}week${String(week)}`;
      for (const [ability, { head }] of kinds) {
        const i = demand.abilities[ability].builders.indexOf(b);
        if (i < 0 || head >= to) continue;
        variables[hours] ??= { cost: (minutesIn(time.work, from, to) * 100) / total };
        const row = `${hours}work${String(ability)}`;
        constraints[row] = { min: 0 };
        variables[hours][row] = 1;
        variables[`price${String(ability)}`][row] = -demand.abilities[ability].rates[i] / 100;
        rows += 1;
      }
    });
  }
  if (rows > MOST_ROWS) return null;
  const solution = solved({ optimize: 'cost', opType: 'min', constraints, variables });
  if (!solution) return null;
  const raw = demand.abilities.map((_, k) => {
    const price = solution[`price${String(k)}`];
    return typeof price === 'number' && Number.isFinite(price) ? Math.max(0, price) : 0;
  });
  const most = Math.max(...raw);
  return most > 0 ? raw.map((price) => Math.round((price / most) * STEPS)) : null;
}

import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { without } from '#scheduling/model/without.ts';
import { solve } from '#scheduling/solve.ts';
import { contradictionOf } from '../decode/infeasible.ts';
import { compiled } from '../testing/compiled.ts';
import type { Yard } from '../yard/yard.ts';

/** Coat one is mixed at once: sixty builder-minutes, and the cup lasts thirty at 20 degrees. */
const oneBatch =
  (hands: number) =>
  (yard: Yard): void => {
    yard.people[0].hourlyCost = 3000;
    yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo' });
    const [procedure] = yard.procedures;
    procedure.steps[1].crewMax = hands;
    procedure.links.push({
      id: 'cup',
      from: 'one',
      to: 'one',
      opens: null,
      closes: { kind: 'milestone', milestone: 'pot-life' },
      sweep: 'unknown',
    });
  };

describe('a step that is one batch', () => {
  const minutes = (problem: ReturnType<typeof compiled>['problem']): number | undefined => {
    const { plan } = solve(problem, { seed: 1, iterations: 16 });
    const one = problem.activities.findIndex(({ id }) => id === 'lid.one');
    const found = plan?.placements.find(({ activity }) => activity === one);
    if (plan !== null) expect(check(problem, plan)).toEqual([]);
    return found && found.finish - found.start;
  };

  it('is spread before its pot life ends, by as many hands as that takes', () => {
    const { problem } = compiled(oneBatch(2));
    expect(minutes(problem)).toBe(30);
    // The checker refuses what one pair of hands would do, and names the link.
    const cup = problem.lags.findIndex(({ source }) => source === 'link:lid.cup');
    const loose = without(problem, [{ kind: 'lag', lag: cup }]);
    const { plan } = solve(
      { ...loose, activities: loose.activities.map((one) => ({ ...one, modes: [one.modes[0]] })) },
      { seed: 1, iterations: 16 },
    );
    expect(plan === null ? null : check(problem, plan).map(({ constraint }) => constraint)).toEqual(
      [{ kind: 'lag', lag: cup }],
    );
  });

  it('cannot be done with too few hands, and says why', () => {
    const made = compiled(oneBatch(1));
    const { infeasibility } = solve(made.problem, { seed: 1, iterations: 16 });
    if (infeasibility === null) throw new Error('a plan was found');
    const { irreducible, members } = contradictionOf(made, infeasibility);
    expect(irreducible).toBe(true);
    expect(members.map(({ text }) => text)).toContain(
      'Coat one (Lid) has to be over inside the pot life of what is mixed for it',
    );
  });
});

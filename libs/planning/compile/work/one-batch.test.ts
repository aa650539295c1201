import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { lagAt } from '#scheduling/model/lag.ts';
import { without } from '#scheduling/model/without.ts';
import { solve } from '#scheduling/solve.ts';
import { contradictionOf } from '../../decode/explain/infeasible.ts';
import { compiled } from '../../testing/compiled.ts';
import { jobOf } from '../../testing/small-yard.ts';
import type { Task } from '../../workload/workload.ts';
import type { MaterialFigure } from '../../yard/materials.ts';
import type { Yard } from '../../yard/yard.ts';
import { rowOf } from '../trace/map.ts';

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

const figure = (value: number): MaterialFigure => ({
  value,
  source: 'made up for tests',
  trust: 'sheet',
  spread: 1,
});

/** The same, as a mark on the step: all of it in one cup. */
const marked =
  (hands: number, change: (yard: Yard) => void = () => undefined) =>
  (yard: Yard): void => {
    yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo' });
    const [, one] = yard.procedures[0].steps;
    Object.assign(one, { crewMax: hands, oneBatch: true });
    change(yard);
  };

/** 100 g/m2 over 2 m2: 200 g; the sheet's cup is 100 g, and of twice the mass the pot life halves. */
function weighed(yard: Yard): void {
  const [, one] = yard.procedures[0].steps;
  one.quantity = { kind: 'coat', gramsPerM2: 100, coats: 1, wastePercent: 0 };
  Object.assign(yard.materials[0], {
    referenceGrams: figure(100),
    referenceMm: figure(50),
    massPower: figure(1),
    thicknessPower: figure(0),
    mixedDensity: figure(1),
  });
}

describe('a step marked as one batch', () => {
  const lagOf = ({ problem, map }: ReturnType<typeof compiled>) => {
    const k = problem.lags.findIndex(({ source }) => source === 'batch:lid.one');
    const lag = problem.lags[k];
    return {
      lag,
      row: rowOf(map, problem, { kind: 'lag', lag: k }),
      lasts: lagAt(problem, lag, 0, 100) - 100,
    };
  };

  it('closes on the pot life of the sheet’s cup where nothing is weighed', () => {
    const { lag, row, lasts } = lagOf(compiled(marked(2)));
    expect(lag).toMatchObject({ from: 1, fromAnchor: 'start', to: 1, toAnchor: 'finish' });
    expect([lag.bound, lag.kind, lasts]).toEqual(['close', 'pot-life', 30]);
    expect(row).toMatchObject({
      kind: 'batch',
      id: 'lid.one',
      path: 'procedures[0].steps[1].oneBatch',
    });
  });

  it('closes sooner for a greater mass, and later for a small one up to the film’s open time', () => {
    const large = marked(2, (yard) => {
      weighed(yard);
      Object.assign(yard.procedures[0].steps[1].effort, { fixed: 0, perM2: 14 }); // 28 builder-minutes
    });
    expect(lagOf(compiled(large)).lasts).toBe(15);
    const small = compiled(
      marked(2, (yard) => {
        weighed(yard);
        yard.materials[0].referenceGrams = figure(800);
        const [cup] = yard.materials[0].milestones;
        yard.materials[0].milestones.push({
          ...cup,
          milestone: 'open-time',
          rows: cup.rows.map((row) => ({ ...row, minutes: row.minutes * 2 })),
        });
      }),
    );
    const ends = small.problem.lags.filter(({ source }) => source === 'batch:lid.one');
    expect(ends.map((lag) => [lag.kind, lagAt(small.problem, lag, 0, 0)])).toEqual([
      ['pot-life', 120],
      ['open-time', 60],
    ]);
  });

  it('is a lag of its own for cups of other masses', () => {
    // 200 g and 400 g: half and a quarter of the sheet's thirty minutes.
    const { problem } = compiled(
      marked(2, (yard) => {
        weighed(yard);
        const { parts } = yard.boats[0].refits[0];
        parts.push({ ...parts[0], id: 'hatch', name: 'Hatch', areaM2: 4, jobs: [jobOf('hatch')] });
        Object.assign(yard.procedures[0].steps[1].effort, { fixed: 4, perM2: 0 });
      }),
    );
    const ends = problem.lags.filter(({ source }) => source.startsWith('batch:'));
    expect(ends.map((lag) => [lag.source, lagAt(problem, lag, 0, 0)])).toEqual([
      ['batch:lid.one', 15],
      ['batch:hatch.one', 7],
    ]);
  });

  it('asks nothing of a batch that has been mixed', () => {
    const mixed: Partial<Task> = {
      state: 'working',
      startedAt: '2026-11-02T08:00:00Z',
      crew: ['ada'],
    };
    // One pair of hands takes an hour, and the cup lasts half of it; but it is too late to say so.
    const { problem } = compiled(marked(1), { tasks: { 'lid.one': mixed } });
    expect(problem.lags.filter(({ source }) => source.startsWith('batch:'))).toEqual([]);
  });
});

import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Violation, ViolationKind } from '../checker/violation.ts';
import { constraintsOf } from '../explanation/conflict/subject.ts';
import { range } from '../testing/draw.ts';
import { activity, kinds, lag, mode, placed, problem } from '../testing/make.ts';
import { mutants, mutations } from '../testing/mutations/mutants.ts';
import { plantedProblem } from '../testing/planted.ts';
import type { Constraint } from './constraint.ts';
import type { Placement, Plan } from './plan.ts';
import type { Problem } from './problem.ts';
import { isDroppable, without } from './without.ts';

const frozen = (of: Problem, a: number): boolean => of.activities[a].fixed?.kind === 'frozen';

/** The plan as it has to be written where a constraint is gone: nobody, no overtime, no slot. */
function rewritten(of: Problem, plan: Plan, gone: Constraint): Plan {
  const change = (one: Placement): Placement => {
    const { slots } = of.activities[one.activity].modes[one.mode] ?? { slots: null };
    if (gone.kind === 'slots' && slots === gone.slotList) return { ...one, slot: null };
    if (!('activity' in gone) || gone.activity !== one.activity) return one;
    const happened = frozen(of, one.activity);
    const nobody = gone.kind === (happened ? 'fixed' : 'crew');
    return nobody ? { ...one, crew: [], overtime: false } : one;
  };
  return { ...plan, placements: plan.placements.map(change) };
}

/** What follows from the plan's own words: lengths, pauses and values; and work before minute 0. */
function excused(of: Problem, gone: Constraint, { kind, activities }: Violation): boolean {
  if (kind === 'duration' || kind === 'segments' || kind === 'values')
    return ['crew', 'calendar', 'hours', 'slots', 'fixed'].includes(gone.kind);
  return (
    gone.kind === 'fixed' &&
    frozen(of, gone.activity) &&
    (kind === 'horizon' || kind === 'release') &&
    activities[0] === gone.activity
  );
}

/** What is wrong with the plan without a constraint, its own words apart. */
const left = (of: Problem, plan: Plan, gone: Constraint): Violation[] =>
  check(without(of, [gone]), rewritten(of, plan, gone)).filter(
    (violation) => !excused(of, gone, violation),
  );

const named = ({ constraint }: Violation): string => JSON.stringify(constraint);

describe('a problem without one of its constraints', () => {
  it('has every plan that it had', () => {
    const asked = new Set<string>();
    for (const seed of range(80)) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 13), { day: 40, days: 6 });
      for (const gone of constraintsOf(of)) {
        asked.add(gone.kind);
        expect(left(of, plan, gone), `seed ${seed}, ${JSON.stringify(gone)}`).toEqual([]);
      }
    }
    expect(asked.size).toBe(16);
  });

  // Whoever works at any time still works within the horizon, which stays.
  const kindsOf = (Object.keys(mutations) as ViolationKind[]).filter((kind) => kind !== 'horizon');

  it.each(kindsOf)('no longer has it broken, and nothing else instead: %s', (kind) => {
    const plans = range(30).map((seed) => plantedProblem(seed, 4 + (seed % 13)));
    for (const { after } of mutants(kind, plans, 8)) {
      const before = check(after.problem, after.plan);
      const known = new Set(before.map(named));
      for (const { constraint: gone } of before) {
        if (gone === null || !isDroppable(gone)) continue;
        const names = left(after.problem, after.plan, gone).map(named);
        expect(names).not.toContain(JSON.stringify(gone));
        expect(names.filter((name) => !known.has(name))).toEqual([]);
      }
    }
  });

  const [sand, coat, shut] = ['sand', 'coat', 'shut'];
  const [bay, booth] = ['bay', 'booth'];
  const dusty = mode({ duration: 60, air: 'dusty', space: 0 });
  const reaches = (barrier: number | null): Partial<Problem> => ({
    spaces: [
      { id: bay, dustReaches: [{ space: 1, barrier }], settling: 0, source: bay },
      { id: booth, dustReaches: [], settling: 0, source: booth },
    ],
  });

  it('keeps out the dust that an act on a barrier kept out', () => {
    const of = problem({
      ...reaches(0),
      barriers: [{ id: 'door', closed: false, source: 'door' }],
      activities: [
        activity(sand, [dusty]),
        activity(coat, [mode({ duration: 60, air: 'wet', space: 1 })]),
        activity(shut, [mode({ duration: 5, barrier: { barrier: 0, closes: true } })]),
      ],
    });
    const placements = [placed(0, '10-70'), placed(1, '10-70'), placed(2, '0-5')];
    expect(kinds(of, placements)).toEqual([]);
    expect(kinds(without(of, [{ kind: 'barrier', barrier: 0 }]), placements)).toEqual([]);
  });

  it('does not leave a film in dust that it was carried away from', () => {
    const of = problem({
      ...reaches(null),
      spaces: [
        { id: bay, dustReaches: [{ space: 0, barrier: null }], settling: 0, source: bay },
        { id: booth, dustReaches: [], settling: 0, source: booth },
      ],
      parts: [{ id: 'hatch', space: 0, source: 'hatch' }],
      activities: [
        activity(sand, [dusty]),
        activity(coat, [mode({ duration: 60, space: 0 })], { parts: [0] }),
        activity('carry', [mode({ duration: 5, movesTo: 1 })], { parts: [0] }),
      ],
      surfaces: [
        {
          id: 'film',
          activity: 1,
          until: [{ kind: 'constant', minutes: 600 }],
          coveredBy: [],
          source: 'film',
        },
      ],
    });
    const placements = [placed(0, '70-130'), placed(1, '0-60'), placed(2, '60-65')];
    expect(kinds(of, placements)).toEqual([]);
    expect(kinds(without(of, [{ kind: 'part', part: 0 }]), placements)).toEqual([]);
  });

  it('does not hold work that began long ago to a lag that is gone', () => {
    const of = problem({
      activities: [
        activity(coat, [mode({ duration: 60 })]),
        activity(sand, [mode({ duration: 60 })], {
          fixed: { kind: 'frozen', start: -90_000, finish: -80_000, builders: [] },
        }),
      ],
      lags: [lag(0, 1, 0)],
    });
    const placements = [placed(0, '2800-2860'), placed(1, '-90000-80000', [], { finish: -80_000 })];
    const plan = placements.map((one, a) =>
      a === 1 ? { ...one, start: -90_000, segments: [{ start: -90_000, end: -80_000 }] } : one,
    );
    expect(kinds(of, plan)).toEqual(['lag-open']);
    expect(kinds(without(of, [{ kind: 'lag', lag: 0 }]), plan)).toEqual([]);
  });
});

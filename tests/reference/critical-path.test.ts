import { describe, expect, it } from 'vitest';
import type { Lag, Problem } from '#scheduling/model/problem.ts';
import { analyse } from '#scheduling/bounds/critical-path.ts';
import { check } from '#scheduling/checker/check.ts';
import { activity, benchmarkProblem } from '#scheduling/formats/benchmark.ts';
import { plainMode } from '#scheduling/model/plain.ts';
import { compile } from '#scheduling/search/crew/compiled/compiled.ts';
import { solve } from '#scheduling/solve.ts';

/**
 * The construction-company project of the network chapter in Hillier & Lieberman,
 * "Introduction to Operations Research": activity, predecessors, weeks. Duration, earliest
 * starts, slacks and critical path are those printed there; they were computed again from
 * the same data before they were written here.
 */
const project: Record<string, readonly [after: readonly string[], weeks: number]> = {
  A: [[], 2],
  B: [['A'], 4],
  C: [['B'], 10],
  D: [['C'], 6],
  E: [['C'], 4],
  F: [['E'], 5],
  G: [['D'], 7],
  H: [['E', 'G'], 9],
  I: [['C'], 7],
  J: [['F', 'I'], 8],
  K: [['J'], 4],
  L: [['J'], 5],
  M: [['H'], 2],
  N: [['K', 'L'], 6],
};
const printed = {
  weeks: 44,
  critical: ['A', 'B', 'C', 'E', 'F', 'J', 'L', 'N'],
  starts: [0, 2, 6, 16, 16, 20, 22, 29, 16, 25, 33, 33, 38, 38],
  slack: [0, 0, 0, 4, 0, 0, 4, 4, 2, 0, 1, 0, 4, 0],
};

const names = Object.keys(project);

function construction(): Problem {
  const lags = names.flatMap((to) =>
    project[to][0].map((from): Lag => ({
      id: `${from}${to}`,
      from: names.indexOf(from),
      fromAnchor: 'finish',
      to: names.indexOf(to),
      toAnchor: 'start',
      bound: 'open',
      fns: [{ kind: 'constant', minutes: 0 }],
      kind: 'sequence',
      source: `${from}${to}`,
    })),
  );
  return benchmarkProblem('plant', {
    horizon: 100,
    activities: names.map((id) => activity('plant', id, [plainMode({ duration: project[id][1] })])),
    lags,
  });
}

describe('the worked critical-path example of Hillier & Lieberman', () => {
  const problem = construction();
  const result = solve(problem, { seed: 1, iterations: 200 });

  it('has the printed duration, proved, by a plan that the checker accepts', () => {
    expect(result.plan?.finishes).toEqual([printed.weeks]);
    expect(result.status).toBe('optimal');
    expect(result.bounds[1].bound).toBe(printed.weeks);
    expect(result.plan === null ? null : check(problem, result.plan)).toEqual([]);
  });

  it('has the printed earliest starts, from propagation alone', () => {
    const { domains, finishes } = analyse(compile(problem));
    expect([...domains.startFrom]).toEqual(printed.starts);
    expect([...finishes]).toEqual([printed.weeks]);
  });

  it('has the printed slacks where everything begins as early as it can', () => {
    expect(result.plan?.placements.map(({ start }) => start)).toEqual(printed.starts);
    expect(result.floats).toEqual(printed.slack);
  });

  it('has the printed critical path as its binding chain', () => {
    expect(result.chains).toHaveLength(1);
    expect(result.chains[0].links.map(({ to }) => names[to])).toEqual(printed.critical);
  });
});

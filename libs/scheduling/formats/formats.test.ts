import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { faultOf } from './fault-of.ts';
import { readSch } from './sch.ts';
import { readSm } from './sm.ts';

const fixture = (name: string): string =>
  readFileSync(new URL(`../../../tests/reference/fixtures/${name}`, import.meta.url), 'utf8');

const sm = fixture('small.sm');
const sch = fixture('window.sch');

describe('what is read', () => {
  it('.sm: jobs with demands, finish-to-start arcs, capacities', () => {
    const problem = readSm(sm, 'small.sm');
    expect(problem.horizon).toBe(21);
    expect(problem.resources.map((r) => r.steps)).toEqual([
      [{ from: 0, capacity: 3 }],
      [{ from: 0, capacity: 1 }],
    ]);
    expect(problem.activities.map((a) => a.id)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8']);
    expect(problem.activities.map((a) => a.modes[0].duration)).toEqual([0, 4, 3, 5, 2, 4, 3, 0]);
    expect(problem.activities[2].modes[0].demands).toEqual([
      { resource: 0, amount: 2, keptWhilePaused: false },
      { resource: 1, amount: 1, keptWhilePaused: false },
    ]);
    expect(problem.lags.map((l) => [l.from, l.to])).toContainEqual([1, 4]);
    expect(new Set(problem.lags.map((l) => `${l.fromAnchor} ${l.bound} ${l.toAnchor}`))).toEqual(
      new Set(['finish open start']),
    );
  });

  it('.sch: start-to-start lags, the negative ones from the later to the earlier', () => {
    const problem = readSch(sch, 'window.sch');
    // Longest of duration and outgoing lags: 0, 3, 2, 4, 0.
    expect(problem.horizon).toBe(9);
    expect(
      problem.lags.map(({ from, to, fns: [fn] }) => [
        from,
        to,
        fn.kind === 'constant' ? fn.minutes : null,
      ]),
    ).toEqual([
      [0, 1, 0],
      [0, 2, 0],
      [0, 3, 0],
      [1, 2, 2],
      [1, 4, 3],
      [2, 1, -4],
      [2, 4, 2],
      [3, 4, 4],
    ]);
    expect(new Set(problem.lags.map((l) => `${l.fromAnchor} ${l.bound} ${l.toAnchor}`))).toEqual(
      new Set(['start open start']),
    );
  });
});

describe('what is refused, with file, line and value', () => {
  const broken: [string, (text: string) => string, string, unknown][] = [
    [
      'a duration that is no number',
      (t) => t.replace('  3      1     3 ', '  3      1     x '),
      'FILE:32',
      'x',
    ],
    [
      'a negative demand',
      (t) => t.replace('  4      1     5       1', '  4      1     5      -1'),
      'FILE:33',
      -1,
    ],
    [
      'a successor that does not exist',
      (t) =>
        t.replace('   4        1          1           7', '   4        1          1           9'),
      'FILE:21',
      '9',
    ],
    [
      'a job out of order',
      (t) =>
        t.replace('   3        1          1           6', '   5        1          1           6'),
      'FILE:20',
      '5',
    ],
    ['a second mode', (t) => t.replace('  2      1     4', '  2      2     4'), 'FILE:31', '2'],
    ['a missing successor', (t) => t.replace('2   3   4', '2   3'), 'FILE:18', '1 1 3 2 3'],
    [
      'too few jobs',
      (t) => t.replace('   8        1          0\n', ''),
      'FILE:25',
      '************************************************************************',
    ],
    ['no capacities', (t) => t.slice(0, t.indexOf('RESOURCEAVAILABILITIES')), 'FILE:38', ''],
    [
      'an enormous duration',
      (t) => t.replace('  3      1     3 ', '  3      1 9999999 '),
      'FILE:32',
      '9999999',
    ],
    ['an empty file', () => '', 'FILE:1', ''],
  ];
  for (const [what, damage, where, value] of broken) {
    it(`.sm: ${what}`, () => {
      expect(damage(sm)).not.toBe(sm);
      expect(faultOf(() => readSm(damage(sm), 'FILE'))).toEqual([where, value]);
    });
  }

  const brokenSch: [string, (text: string) => string, string, unknown][] = [
    ['a lag without brackets', (t) => t.replace('[-4]', '-4'), 'FILE:4', '-4'],
    ['a lag that is no number', (t) => t.replace('[-4]', '[]'), 'FILE:4', ''],
    [
      'an activity that does not exist',
      (t) => t.replace('1\t1\t2\t2\t4\t', '1\t1\t2\t2\t5\t'),
      'FILE:3',
      5,
    ],
    ['a missing lag', (t) => t.replace('\t[2]\t[3]', '\t[2]'), 'FILE:3', '1 1 2 2 4 [2]'],
    ['a row too few', (t) => t.replace('4\t1\t0\t0\n', ''), 'FILE:11', 11],
    ['a negative capacity', (t) => t.replace(/\n2\n$/, '\n-2\n'), 'FILE:12', -2],
    ['a fractional duration', (t) => t.replace('3\t1\t4\t2', '3\t1\t4.5\t2'), 'FILE:10', '4.5'],
    ['an empty file', () => ' \n', 'FILE:1', ''],
  ];
  for (const [what, damage, where, value] of brokenSch) {
    it(`.sch: ${what}`, () => {
      expect(damage(sch)).not.toBe(sch);
      expect(faultOf(() => readSch(damage(sch), 'FILE'))).toEqual([where, value]);
    });
  }
});

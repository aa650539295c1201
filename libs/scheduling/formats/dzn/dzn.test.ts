import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { validate } from '../../model/validate.ts';
import { faultOf } from '../fault-of.ts';
import { readProblemFile } from '../problem-file.ts';

const fixture = (name: string): string =>
  readFileSync(new URL(`../../../../tests/reference/fixtures/${name}`, import.meta.url), 'utf8');
const read = (text: string) =>
  readProblemFile('FILE.dzn', text, () => {
    throw new Error('no other file is named');
  });

describe('what is read', () => {
  it('multi-mode: options with demands and consumption, successors, capacities and totals', () => {
    const problem = read(fixture('options.dzn'));
    expect(problem.horizon).toBe(3 + 4 + 3 + 1);
    expect(problem.resources.map(({ id, steps }) => [id, steps])).toEqual([
      ['R1', [{ from: 0, capacity: 2 }]],
    ]);
    expect(problem.stocks.map(({ id, total }) => [id, total])).toEqual([['R2', 9]]);
    expect(
      problem.activities.map(({ modes }) =>
        modes.map(({ duration, demands, consumes }) => [
          duration,
          demands.map(({ amount }) => amount),
          consumes.map(({ amount }) => amount),
        ]),
      ),
    ).toEqual([
      [
        [1, [2], [4]],
        [3, [1], [1]],
      ],
      [
        [2, [2], [4]],
        [4, [1], [1]],
      ],
      [
        [2, [1], [3]],
        [3, [2], []],
      ],
      [[1, [1], [1]]],
    ]);
    expect(problem.lags.map(({ from, to, fromAnchor }) => [from, to, fromAnchor])).toEqual([
      [0, 1, 'finish'],
      [0, 2, 'finish'],
      [1, 3, 'finish'],
      [2, 3, 'finish'],
    ]);
    expect(validate(problem)).toEqual([]);
  });

  it.each(['skills.dzn', 'mastery.dzn'])('multi-skill, %s: people, crews, fixed times', (name) => {
    const problem = read(fixture(name));
    expect(problem.horizon).toBe(9);
    expect(problem.builders.map(({ abilities }) => abilities.map(({ skill }) => skill))).toEqual([
      [0],
      [0, 1],
      [1],
    ]);
    const real = problem.activities.filter(({ modes }) => modes[0].crew.length > 0);
    expect(real.map(({ modes: [{ crew, floor }] }) => [floor, ...crew])).toEqual([
      [2, { skill: 0, minLevel: 1, count: 1 }],
      [3, { skill: 1, minLevel: 1, count: 1 }],
      [2, { skill: 0, minLevel: 1, count: 1 }, { skill: 1, minLevel: 1, count: 1 }],
      [1, { skill: 0, minLevel: 1, count: 2 }],
      [1, { skill: 1, minLevel: 1, count: 2 }],
    ]);
    expect(validate(problem)).toEqual([]);
  });
});

describe('what is refused, with file, line and value', () => {
  const broken: [string, string, (text: string) => string, number, unknown][] = [
    ['a sign that is none of the format', 'options', (t) => t.replace('= 2;', '= 2!;'), 2, '!'],
    ['a bracket that is not closed', 'options', (t) => t.replace('[2, 9]', '[2, 9'), 3, ';'],
    ['an end in the middle', 'options', (t) => t.slice(0, t.indexOf('dur')) + 'dur = [1,', 9, ''],
    ['no semicolon', 'options', (t) => t.replace('n_res = 2;', 'n_res = 2'), 3, 'rcap'],
    ['a field given twice', 'options', (t) => `${t}n_res = 3;\n`, 12, 'n_res'],
    ['a field that is missing', 'options', (t) => t.replace(/rtype.*\n/, ''), 10, ''],
    ['another form', 'options', (t) => t.replace('[1, 2]', '{1, 2}'), 4, '{'],
    ['too few entries', 'options', (t) => t.replace('[2, 9]', '[2]'), 3, 1],
    ['a fraction', 'options', (t) => t.replace('[2, 9]', '[2, 9.5]'), 3, '9.5'],
    ['a negative demand', 'options', (t) => t.replace('| 4, 1', '| 4, -1'), 11, -1],
    ['a type that is unknown', 'options', (t) => t.replace('[1, 2]', '[1, 3]'), 4, 3],
    ['an option that does not exist', 'options', (t) => t.replace('{7}', '{8}'), 6, 8],
    ['a task without an option', 'options', (t) => t.replace('{7}', '{}'), 6, 4],
    ['a successor that does not exist', 'options', (t) => t.replace('{4}, {4}', '{4}, {5}'), 7, 5],
    ['a short row', 'options', (t) => t.replace('| 4, 1,', '| 4,'), 11, 6],
    ['a row too many', 'options', (t) => t.replace('|];', '| 1, 1, 1, 1, 1, 1, 1 |];'), 10, 3],
    ['a set that is a number', 'skills', (t) => t.replace('{2}]', '2]'), 4, '2'],
    ['a skill that does not exist', 'skills', (t) => t.replace('{2}]', '{3}]'), 4, 3],
    [
      'mastery that is neither',
      'mastery',
      (t) => t.replace('| false,true', '| maybe,true'),
      19,
      'maybe',
    ],
    ['a pair without its other half', 'mastery', (t) => t.replace('succ = [2,', 'succ = ['), 23, 8],
    ['neither kind of file', 'skills', (t) => t.replace('has_skills', 'had_skills'), 1, ''],
    ['an empty file', 'skills', () => '', 1, ''],
  ];
  it.each(broken)('%s', (_, name, damage, line, value) => {
    const whole = fixture(`${name}.dzn`);
    const damaged = damage(whole);
    expect(damaged).not.toBe(whole);
    expect(faultOf(() => read(damaged))).toEqual([`FILE.dzn:${line}`, value]);
  });
});

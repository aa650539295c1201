import { plainMode } from '../model/plain.ts';
import type { Builder, Problem } from '../model/problem.ts';
import { activity, benchmarkProblem, constantLag, type Link } from './benchmark.ts';
import { numberField, numbersField, setsField, tableField, truthField } from './dzn/fields.ts';
import type { Fields } from './dzn/read.ts';
import { successorLinks } from './multi-mode.ts';
import { malformed } from './text.ts';

/** What both ways of writing these files come to. */
interface MultiSkill {
  readonly duration: readonly number[];
  /** People needed, by task and skill. */
  readonly needs: readonly (readonly number[])[];
  /** The skills of each person, from 0. */
  readonly people: readonly (readonly number[])[];
  readonly links: readonly Link[];
}

const LEVEL = 1;
const NOMINAL = 100;
const anyAmount = { least: 0, most: Infinity };

/**
 * A multi-skill project, in the way of the MiniZinc benchmark collection (`has_skills`, `rr`,
 * `suc`) or of the MSPSP instance library (`mastery`, `sreq`, `pred`, `succ`; K. D. Young,
 * T. Feydy, A. Schutt, CP 2017): a task needs so many people of each skill from start to finish,
 * and on one task a person serves one skill. Throws `input.malformed`.
 */
export function multiSkillProblem(fields: Fields): Problem {
  const { file } = fields;
  const { duration, needs, people, links } = fields.items.has('mastery')
    ? ofLibrary(fields)
    : ofCollection(fields);
  const horizon = duration.reduce((sum, periods) => sum + periods, 0);
  return benchmarkProblem(file, {
    // Any plan can be pressed to the left until something runs at every moment.
    horizon,
    skills: needs[0].map((_, skill) => `S${String(skill + 1)}`),
    calendars: [
      {
        id: 'always',
        shifts: horizon > 0 ? [{ start: 0, end: horizon }] : [],
        breaks: [],
        overtime: [],
        source: file,
      },
    ],
    builders: people.map((skills, b) => builder(file, b, skills)),
    activities: duration.map((periods, i) => {
      // One unit of work is less than a minute's: whoever does it, it takes the floor.
      // What takes no time keeps nobody.
      const crew = needs[i]
        .map((count, skill) => ({ skill, minLevel: LEVEL, count }))
        .filter(({ count }) => count > 0 && periods > 0);
      const timed = crew.length > 0 ? { work: 1, floor: periods } : { duration: periods };
      return activity(file, String(i + 1), [plainMode({ ...timed, crew })]);
    }),
    lags: links.map((link, k) => constantLag(file, 1, link, k)),
  });
}

const builder = (file: string, b: number, skills: readonly number[]): Builder => ({
  id: `W${String(b + 1)}`,
  calendar: 0,
  abilities: skills.map((skill) => ({ skill, level: LEVEL, speed: NOMINAL, needsSenior: false })),
  cost: 0,
  unlimited: false,
  source: `${file} person ${String(b + 1)}`,
});

function ofCollection(fields: Fields): MultiSkill {
  const count = numberField(fields, 'n_tasks', 1);
  const skills = numberField(fields, 'n_skills', 0);
  const bySkill = tableField(fields, 'rr', skills, count, anyAmount);
  const mastered = setsField(fields, 'has_skills', numberField(fields, 'n_workers', 0), {
    least: 1,
    most: skills,
  });
  return {
    duration: numbersField(fields, 'd', count, anyAmount),
    needs: Array.from({ length: count }, (_, task) => bySkill.map((row) => row[task])),
    people: mastered.map((set) => set.map((skill) => skill - 1)),
    links: successorLinks(setsField(fields, 'suc', count, { least: 1, most: count })),
  };
}

function ofLibrary(fields: Fields): MultiSkill {
  const count = numberField(fields, 'nActs', 1);
  const skills = numberField(fields, 'nSkills', 0);
  const pairs = numberField(fields, 'nPrecs', 0);
  const task = { least: 1, most: count };
  const before = numbersField(fields, 'pred', pairs, task);
  const after = numbersField(fields, 'succ', pairs, task);
  const mastery = truthField(fields, 'mastery', numberField(fields, 'nResources', 0), skills);
  return {
    duration: numbersField(fields, 'dur', count, anyAmount),
    needs: tableField(fields, 'sreq', count, skills, anyAmount),
    people: mastery.map((row) => [...row.keys()].filter((skill) => row[skill])),
    links: before.map((from, k): Link => ({
      from: from - 1,
      to: after[k] - 1,
      lag: 0,
      anchor: 'finish',
    })),
  };
}

/** Whether these are the fields of a multi-skill or of a multi-mode file. Throws `input.malformed`. */
export function dialectOf({ file, items }: Fields): 'skills' | 'modes' {
  if (items.has('mastery') || items.has('has_skills')) return 'skills';
  if (items.has('modes')) return 'modes';
  throw malformed(
    { file, line: 1 },
    '',
    'the file has neither "modes" (multi-mode) nor "has_skills" or "mastery" (multi-skill)',
    'Give a complete .dzn file of one of these kinds.',
  );
}

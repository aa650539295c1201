import { eachOnce, fieldOf, inOrder, numbersOf, rowsOf, setsOf, type Rules } from './schedule.ts';

interface Stated {
  readonly durations: readonly number[];
  readonly needs: (task: number, skill: number) => number;
  readonly has: (person: number, skill: number) => boolean;
  readonly people: number;
  readonly skills: number;
  readonly order: readonly (readonly [number, number])[];
}

function stated(text: string): Stated {
  if (/^\s*mastery\s*=/m.test(text)) {
    const needs = rowsOf(fieldOf(text, 'sreq')).map(numbersOf);
    const mastery = rowsOf(fieldOf(text, 'mastery')).map((row) => row.match(/true|false/g) ?? []);
    const after = numbersOf(fieldOf(text, 'succ'));
    return {
      durations: numbersOf(fieldOf(text, 'dur')),
      needs: (task, skill) => needs[task - 1][skill - 1],
      has: (person, skill) => mastery[person - 1][skill - 1] === 'true',
      people: mastery.length,
      skills: needs[0].length,
      order: numbersOf(fieldOf(text, 'pred')).map((before, k) => [before, after[k]] as const),
    };
  }
  const needs = rowsOf(fieldOf(text, 'rr')).map(numbersOf);
  const skillsOf = setsOf(fieldOf(text, 'has_skills'));
  return {
    durations: numbersOf(fieldOf(text, 'd')),
    needs: (task, skill) => needs[skill - 1][task - 1],
    has: (person, skill) => skillsOf[person - 1].includes(skill),
    people: skillsOf.length,
    skills: needs.length,
    order: setsOf(fieldOf(text, 'suc')).flatMap((after, i) =>
      after.map((j) => [i + 1, j] as const),
    ),
  };
}

/**
 * What breaks the rules of a multi-skill file of either dialect, one skill a task (see the
 * benchmark folder's README): from the file's own text, without the engine's reader, model or
 * checker.
 */
export function skillRules(text: string): Rules {
  const { durations, needs, has, people, skills, order } = stated(text);
  const tasks = durations.map((_, i) => i + 1);
  const oneToN = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1);
  return (done) => {
    const ends = Math.max(0, ...done.map(({ end }) => end));
    return [
      ...eachOnce(done, tasks),
      ...done
        .filter(({ task, start, end }) => end - start !== durations[task - 1])
        .map(({ task }) => `task ${task} does not take its time`),
      ...inOrder(done, order),
      ...done.flatMap(({ task, start, end, people: crew }) => [
        ...oneToN(skills)
          .filter(
            (skill) =>
              end > start &&
              crew.filter((one) => one.skill === skill).length !== needs(task, skill),
          )
          .map((skill) => `task ${task} does not have its people of skill ${skill}`),
        ...crew
          .filter(({ person, skill }) => !has(person, skill))
          .map(({ person, skill }) => `person ${person} does not have skill ${skill}`),
      ]),
      ...oneToN(people).flatMap((person) =>
        Array.from({ length: ends }, (_, t) => t)
          .filter(
            (t) =>
              done
                .filter(({ start, end }) => start <= t && t < end)
                .flatMap((one) => one.people)
                .filter((one) => one.person === person).length > 1,
          )
          .map((t) => `person ${person} is in two places in period ${t}`),
      ),
    ];
  };
}

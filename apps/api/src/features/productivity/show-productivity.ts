import { percentTimes, speedOver } from '#live/learning/apply.ts';
import { type LeftOut, leftOutReasons } from '#live/learning/evidence.ts';
import type { Estimate, Productivity as Learned } from '#live/learning/productivity.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import { rowsOf, shortName } from '#planning/decode/reading/rows.ts';
import type { Productivity } from './productivity.contract.ts';
import type { Revisions } from './productivity.store.ts';

const METHOD =
  'Logarithms of actual over planned builder-minutes of finished tasks, taken apart into the yard, ' +
  'steps, people at a skill, and spaces by a linear mixed model (best linear unbiased prediction, ' +
  'Henderson 1975; variances by restricted maximum likelihood): where there is little evidence a ' +
  'factor is drawn towards 1 and its interval is wide. The interval holds four times out of five. ' +
  'Applied is what the foreman says, and nothing by itself.';

/** To thousandths: more would look like more than is known. */
const rounded = ({ factor, low, high, planned, actual, ...rest }: Estimate): Estimate => {
  const [f, l, h] = [factor, low, high].map((value) => Math.round(value * 1000) / 1000);
  const [p, a] = [planned, actual].map((value) => Math.round(value * 10) / 10);
  return { ...rest, factor: f, low: l, high: h, planned: p, actual: a };
};

/** What was learned with the yard's names, the most pressing first; records that are gone are left out. */
export function showProductivity(
  { yard: all, steps, people, spaces, setAside }: Learned,
  leftOut: ReadonlyMap<LeftOut, number>,
  { yard, workload }: Pick<YardState, 'yard' | 'workload'>,
  revisions: Revisions,
): Productivity {
  const rows = rowsOf(yard, workload);
  const byChange = <T extends Estimate>(list: readonly T[]): T[] =>
    [...list].sort((a, b) => Math.abs(Math.log(b.factor)) - Math.abs(Math.log(a.factor)));
  return {
    yard: all && rounded(all),
    steps: byChange(steps).flatMap(({ procedure: procedureId, step: stepId, ...one }) => {
      const procedure = yard.procedures.find(({ id }) => id === procedureId);
      const step = procedure?.steps.find(({ id }) => id === stepId);
      if (procedure === undefined || step === undefined) return [];
      const { name, version: revision } = procedure;
      return [{ procedureId, procedure: name, stepId, step: step.name, revision, ...rounded(one) }];
    }),
    people: byChange(people).flatMap(({ person: personId, skill: skillId, ...one }) => {
      const person = yard.people.find(({ id }) => id === personId);
      const speed = person?.abilities.find(({ skill }) => skill === skillId)?.speed;
      const revision = revisions.people.get(personId);
      if (person === undefined || speed === undefined || revision === undefined) return [];
      const skill = yard.skills.find(({ id }) => id === skillId)?.name ?? skillId;
      const speedThen = speedOver(speed, one.factor);
      const { name } = person;
      return [
        { personId, person: name, skillId, skill, revision, speed, speedThen, ...rounded(one) },
      ];
    }),
    spaces: byChange(spaces).flatMap(({ space: spaceId, ...one }) => {
      const space = yard.spaces.find(({ id }) => id === spaceId);
      const revision = revisions.spaces.get(spaceId);
      if (space === undefined || revision === undefined) return [];
      const { workPercent, name } = space;
      const workPercentThen = percentTimes(workPercent, one.factor);
      return [{ spaceId, space: name, revision, workPercent, workPercentThen, ...rounded(one) }];
    }),
    setAside: setAside.map(({ taskId, factor }) => ({
      taskId,
      task: shortName(rows, taskId),
      factor: Math.round(factor * 100) / 100,
    })),
    leftOut: [...leftOut].map(([why, tasks]) => ({ tasks, words: leftOutReasons[why] })),
    method: METHOD,
  };
}

import { DomainError, fault, type Fault } from '#kernel/error.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Person } from '#planning/yard/people.ts';
import type { Yard } from '#planning/yard/yard.ts';

/** The level of a learner in a skill (`abilitySchema`). */
const learner = 1;

type Work = Pick<Task, 'name' | 'skill' | 'minLevel' | 'crewMin' | 'crewMax'>;
type Place = Pick<Yard, 'people' | 'skills'>;

const levelOf = ({ abilities }: Person, skill: string): number =>
  abilities.find((ability) => ability.skill === skill)?.level ?? 0;

/** What is wrong with each of a crew, by its place in it. */
function memberFaults(
  { people }: Place,
  task: Work,
  skill: string,
  crew: readonly string[],
  skillName: string,
): Fault[] {
  return crew.flatMap((id, index) => {
    const path = `crew[${String(index)}]`;
    const person = people.find((known) => known.id === id);
    if (!person) return [fault('claim.crew', path, `there is nobody "${id}"`, { value: id })];
    const level = levelOf(person, skill);
    if (level >= task.minLevel) return [];
    const lacks =
      level === 0
        ? `has not the skill ${skillName}`
        : `is not able enough in ${skillName}: level ${String(level)}, and ${String(task.minLevel)} is needed`;
    return [fault('claim.crew', path, `${person.name} ${lacks}`, { value: id })];
  });
}

function sizeFaults({ name, crewMin, crewMax }: Work, { length }: readonly string[]): Fault[] {
  if (length >= crewMin && length <= crewMax) return [];
  const size = crewMin === crewMax ? String(crewMin) : `${String(crewMin)} to ${String(crewMax)}`;
  const message = `"${name}" takes ${size}, not ${String(length)}`;
  return [fault('claim.crew', 'crew', message, { value: length })];
}

/** A crew of learners alone, naming who could be with them. */
function teachingFaults(
  { people }: Place,
  { name, crewMax }: Work,
  skill: string,
  crew: readonly string[],
  skillName: string,
): Fault[] {
  const members = people.filter(({ id }) => crew.includes(id));
  if (members.some((person) => levelOf(person, skill) > learner)) return [];
  const seniors = people.filter(
    (person) => person.roles.includes('builder') && levelOf(person, skill) > learner,
  );
  const who = new Intl.ListFormat('en', { type: 'disjunction' }).format(
    seniors.map((senior) => senior.name),
  );
  const cure =
    who === ''
      ? `Nobody in the yard can teach ${skillName} yet.`
      : crew.length < crewMax
        ? `Name ${who} as well.`
        : `Leave it to ${who}, or name one of them instead of a learner.`;
  const learners = new Intl.ListFormat('en').format(members.map((member) => member.name));
  const verb = members.length === 1 ? 'learns' : 'learn';
  const message = `${learners} still ${verb} ${skillName}, and "${name}" needs somebody beside them who is above that: ${who === '' ? 'nobody is' : who}`;
  return [fault('claim.crew', 'crew', message, { value: [...crew], cure })];
}

/**
 * Everyone has the skill at the level, they are as many as the task takes, and learners are beside
 * somebody above them, as in a plan. Throws `claim.crew` with a fault at `crew` for each that does
 * not fit; a hold point fits nobody.
 */
export function assertCrewFits(yard: Place, task: Work, crew: readonly string[]): void {
  const { skill } = task;
  if (skill === null) {
    throw new DomainError('claim.crew', `"${task.name}" is a hold point, and takes nobody.`);
  }
  const skillName = yard.skills.find(({ id }) => id === skill)?.name ?? skill;
  const found = [...memberFaults(yard, task, skill, crew, skillName), ...sizeFaults(task, crew)];
  const faults = found.length > 0 ? found : teachingFaults(yard, task, skill, crew, skillName);
  if (faults.length === 0) return;
  const [{ message, cure }] = faults;
  throw new DomainError('claim.crew', message, { faults, ...(found.length > 0 ? {} : { cure }) });
}

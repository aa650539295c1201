import { DomainError, fault } from '#kernel/error.ts';
import type { Prisma, Skill, Task } from '#persistence/generated/client.ts';
import { inOrder } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';

/** The level of a learner in a skill (`abilitySchema`). */
const learner = 1;

type Member = Prisma.MemberGetPayload<{ include: { abilities: true } }>;
type Crew = readonly [holder: string, ...others: string[]];

/**
 * The crew that may do the task: the caller alone unless others are named. A builder is in the
 * crew; the foreman may send others, but none beside those for whom the task is set. A hold point
 * takes nobody, and is in hand of whoever is told the word. Throws `claim.crew`.
 */
export async function crewFor(
  tx: Tx,
  viewer: Viewer,
  task: Task,
  named: readonly string[] | undefined,
): Promise<Crew> {
  const [holder, ...others] = new Set(named ?? [viewer.memberId]);
  const crew: Crew = [holder, ...others];
  if (!viewer.roles.includes('foreman') && !crew.includes(viewer.memberId)) {
    throw new DomainError('access.role', 'Only the foreman claims work for others.');
  }
  if (task.skillId === null) return crew;
  await assertCrewFits(tx, task, crew);
  const set = await tx.taskCrew.findMany({
    where: { yardId: task.yardId, taskId: task.id },
    ...inOrder,
    include: { member: true },
  });
  if (set.length > 0 && !set.every(({ memberId }) => crew.includes(memberId))) {
    const whom = set.map(({ member }) => member.name).join(' and ');
    throw new DomainError('claim.crew', `The foreman has set this task for ${whom}.`);
  }
  return crew;
}

/**
 * Everyone has the skill at the level, they are as many as the task takes, and learners are beside
 * somebody above them, as in a plan. Throws `claim.crew` with a fault at `crew` for each that does
 * not fit; a hold point fits nobody.
 */
export async function assertCrewFits(tx: Tx, task: Task, crew: readonly string[]): Promise<void> {
  const { yardId, skillId, crewMin, crewMax } = task;
  if (skillId === null) {
    throw new DomainError('claim.crew', `"${task.name}" is a hold point, and takes nobody.`);
  }
  const members = await tx.member.findMany({
    where: { yardId, id: { in: [...crew] } },
    include: { abilities: { where: { skillId } } },
    orderBy: { position: 'asc' },
  });
  const skill = await tx.skill.findUniqueOrThrow({
    where: { yardId_id: { yardId, id: skillId } },
  });
  const faults = crew.flatMap((id, index) => {
    const path = `crew[${String(index)}]`;
    const member = members.find((known) => known.id === id);
    if (!member) return [fault('claim.crew', path, `there is nobody "${id}"`, { value: id })];
    const level = member.abilities.at(0)?.level ?? 0;
    if (level >= task.minLevel) return [];
    const lacks =
      level === 0
        ? `has not the skill ${skill.name}`
        : `is not able enough in ${skill.name}: level ${String(level)}, and ${String(task.minLevel)} is needed`;
    return [fault('claim.crew', path, `${member.name} ${lacks}`, { value: id })];
  });
  if (crew.length < crewMin || crew.length > crewMax) {
    const size = crewMin === crewMax ? String(crewMin) : `${String(crewMin)} to ${String(crewMax)}`;
    faults.push(
      fault('claim.crew', 'crew', `"${task.name}" takes ${size}, not ${String(crew.length)}`, {
        value: crew.length,
      }),
    );
  }
  if (faults.length > 0) throw new DomainError('claim.crew', faults[0].message, { faults });
  await assertTaught(tx, task, skill, members);
}

/** Refuses a crew of learners alone, naming who could be with them. */
async function assertTaught(
  tx: Tx,
  { yardId, name, crewMax }: Task,
  skill: Skill,
  crew: readonly Member[],
): Promise<void> {
  if (crew.some(({ abilities }) => abilities.some(({ level }) => level > learner))) return;
  const seniors = await tx.member.findMany({
    where: {
      yardId,
      roles: { has: 'builder' },
      abilities: { some: { skillId: skill.id, level: { gt: learner } } },
    },
    orderBy: { position: 'asc' },
  });
  const who = new Intl.ListFormat('en', { type: 'disjunction' }).format(
    seniors.map((senior) => senior.name),
  );
  const cure =
    who === ''
      ? `Nobody in the yard can teach ${skill.name} yet.`
      : crew.length < crewMax
        ? `Name ${who} as well.`
        : `Leave it to ${who}, or name one of them instead of a learner.`;
  const learners = new Intl.ListFormat('en').format(crew.map((member) => member.name));
  const verb = crew.length === 1 ? 'learns' : 'learn';
  const message = `${learners} still ${verb} ${skill.name}, and "${name}" needs somebody beside them who is above that: ${who === '' ? 'nobody is' : who}`;
  const taught = fault('claim.crew', 'crew', message, {
    value: crew.map(({ id }) => id),
    cure,
  });
  throw new DomainError('claim.crew', message, { cure, faults: [taught] });
}

import { DomainError, fault } from '#kernel/error.ts';
import type { Task } from '#persistence/generated/client.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';

type Crew = readonly [holder: string, ...others: string[]];

/**
 * The crew that may do the task: the caller alone unless others are named. A builder is in the
 * crew; the foreman may send others. Everyone has the skill at the level, and they are as many
 * as the task takes. Throws `claim.crew` with a fault at `crew` for each that does not fit.
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
  const { yardId } = viewer;
  const members = await tx.member.findMany({
    where: { yardId, id: { in: [...crew] } },
    include: { abilities: { where: { skillId: task.skillId } } },
  });
  const skill = await tx.skill.findUniqueOrThrow({
    where: { yardId_id: { yardId, id: task.skillId } },
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
  const { crewMin, crewMax } = task;
  if (crew.length < crewMin || crew.length > crewMax) {
    const size = crewMin === crewMax ? String(crewMin) : `${String(crewMin)} to ${String(crewMax)}`;
    faults.push(
      fault('claim.crew', 'crew', `"${task.name}" takes ${size}, not ${String(crew.length)}`, {
        value: crew.length,
      }),
    );
  }
  if (faults.length > 0) throw new DomainError('claim.crew', faults[0].message, { faults });
  const set = await tx.taskCrew.findMany({
    where: { yardId, taskId: task.id },
    include: { member: true },
  });
  if (set.length > 0 && !set.every(({ memberId }) => crew.includes(memberId))) {
    const whom = set.map(({ member }) => member.name).join(' and ');
    throw new DomainError('claim.crew', `The foreman has set this task for ${whom}.`);
  }
  return crew;
}

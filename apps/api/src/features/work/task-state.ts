import { DomainError } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import type { Tx } from '../../platform/database/database.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Claim } from './claims.contract.ts';

/** A task without a skill: an outsider's word, which takes nobody's time. */
async function isHoldPoint(tx: Tx, yardId: string, taskId: string): Promise<boolean> {
  const where = { yardId_id: { yardId, id: taskId } };
  return (await tx.task.findUniqueOrThrow({ where })).skillId === null;
}

/** Nobody is at work on two tasks. */
export async function assertIdle(tx: Tx, yardId: string, claim: Claim): Promise<void> {
  if (await isHoldPoint(tx, yardId, claim.taskId)) return;
  const busy = await tx.claimMember.findFirst({
    where: {
      yardId,
      memberId: { in: claim.crew.map(({ id }) => id) },
      claim: { status: 'working' },
    },
    include: { member: true, claim: { include: { task: true } } },
  });
  if (busy) {
    const { member, claim: other } = busy;
    throw new DomainError('claim.state', `${member.name} is at work on "${other.task.name}".`, {
      cure: 'Finish or release that first.',
    });
  }
}

export async function setClaim(
  tx: Tx,
  yardId: string,
  { id, revision }: Claim,
  data: Prisma.ClaimUpdateManyMutationInput,
): Promise<void> {
  changedOne(await tx.claim.updateMany({ where: { yardId, id, revision }, data }));
}

/** The crew that really does the work stays with it: plans to come build on that. */
export async function beginTask(tx: Tx, yardId: string, claim: Claim, at: Date): Promise<void> {
  const { taskId, crew } = claim;
  await setTask(tx, yardId, taskId, 'waiting', { state: 'working', startedAt: at });
  if (await isHoldPoint(tx, yardId, taskId)) return;
  // Those whom the foreman set it for are in the crew (`crewFor`), and stay marked.
  const set = await tx.taskCrew.findMany({ where: { yardId, taskId } });
  const isSet = new Set(set.map(({ memberId }) => memberId));
  for (const { id } of crew) {
    if (!isSet.has(id)) await tx.taskCrew.create({ data: { yardId, taskId, memberId: id } });
  }
}

export async function endTask(tx: Tx, yardId: string, claim: Claim, at: Date): Promise<void> {
  await setTask(tx, yardId, claim.taskId, 'working', { state: 'done', finishedAt: at });
}

/** As if it had never begun, and again for whom the foreman set it. Wet work cannot be undone: its film is there and cures. */
export async function putBack(tx: Tx, yardId: string, { taskId }: Claim): Promise<void> {
  const task = await tx.task.findUniqueOrThrow({ where: { yardId_id: { yardId, id: taskId } } });
  if (task.materialId !== null) {
    throw new DomainError('claim.state', `"${task.name}" has begun and its film cures.`, {
      cure: 'Finish it; plan again if it is only half done.',
    });
  }
  await setTask(tx, yardId, taskId, 'working', {
    state: 'waiting',
    startedAt: null,
    finishedAt: null,
  });
  await tx.taskCrew.deleteMany({ where: { yardId, taskId, setByForeman: false } });
}

async function setTask(
  tx: Tx,
  yardId: string,
  id: string,
  from: 'waiting' | 'working',
  data: Prisma.TaskUpdateManyMutationInput,
): Promise<void> {
  const { count } = await tx.task.updateMany({ where: { yardId, id, state: from }, data });
  if (count !== 1) throw new DomainError('claim.state', `The task is not ${from}.`);
}

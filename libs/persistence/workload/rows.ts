import { milestoneSchema } from '#planning/yard/materials.ts';
import type { Moment } from '#planning/yard/procedures.ts';
import type { Task, TaskChoice, TaskLink } from '#planning/workload/workload.ts';
import type { Prisma } from '../generated/client.ts';
import { asJson, asJsonOrNull, inOrder, isoOf, nothingLeft } from '../rows.ts';
import { taskStateSchema } from '../plan/sheet-shape.ts';
import {
  bondingWord,
  consumptionList,
  holdList,
  preparationList,
  quantityOrNull,
} from './documents.ts';

export const taskDetails = { tools: inOrder, crew: inOrder } as const satisfies Prisma.TaskInclude;
export const choiceDetails = {
  branches: { ...inOrder, include: { tasks: inOrder, links: inOrder } },
} as const satisfies Prisma.TaskChoiceInclude;

export type TaskRow = Prisma.TaskGetPayload<{ include: typeof taskDetails }>;
export type TaskLinkRow = Prisma.TaskLinkGetPayload<object>;
export type TaskChoiceRow = Prisma.TaskChoiceGetPayload<{ include: typeof choiceDetails }>;

/** The columns of the task itself; tools and crew are rows of their own. */
export function taskRow(
  yardId: string,
  {
    skill,
    material,
    space,
    movesTo,
    parts,
    holds,
    consumes,
    quantity,
    prepares,
    barrier,
    slots,
    sensitiveUntil,
    coveredBy,
    startedAt,
    finishedAt,
    fixedStart,
    rework,
    replaces,
    tools: _t,
    crew: _c,
    ...same
  }: Task,
): Prisma.TaskCreateManyInput {
  const {
    id,
    refitId,
    partId,
    jobId,
    stepId,
    name,
    workMinutes,
    floorMinutes,
    minLevel,
    crewMin,
    crewMax,
    air,
    splittable,
    breaks,
    cleanDownMinutes,
    oneBatch,
    bonding,
    price,
    state,
    leftMinutes,
    portion,
    ...rest
  } = same;
  nothingLeft(rest);
  return {
    yardId,
    id,
    refitId,
    partId,
    jobId,
    stepId,
    name,
    workMinutes,
    floorMinutes,
    skillId: skill,
    minLevel,
    crewMin,
    crewMax,
    air,
    materialId: material,
    spaceId: space,
    movesToId: movesTo,
    partIds: [...parts],
    splittable,
    breaks,
    cleanDownMinutes,
    holds: asJson(holds),
    consumes: asJson(consumes),
    quantity: asJsonOrNull(quantity),
    oneBatch,
    prepares: asJson(prepares),
    bonding,
    barrierId: barrier?.barrier ?? null,
    barrierCloses: barrier?.closes ?? null,
    slotListId: slots,
    price,
    sensitiveMinutes: minutesOf(sensitiveUntil),
    sensitiveMilestone: milestoneOf(sensitiveUntil),
    coveredBy: [...coveredBy],
    state,
    startedAt: startedAt === null ? null : new Date(startedAt),
    finishedAt: finishedAt === null ? null : new Date(finishedAt),
    fixedStartAt: fixedStart === null ? null : new Date(fixedStart),
    leftMinutes,
    reworkId: rework,
    replacesId: replaces,
    portion,
  };
}

/** Of a task that is part of the workload: one that was dropped is not. */
export const toTask = ({ state, ...row }: TaskRow): Task => ({
  id: row.id,
  refitId: row.refitId,
  partId: row.partId,
  jobId: row.jobId,
  stepId: row.stepId,
  name: row.name,
  workMinutes: row.workMinutes,
  floorMinutes: row.floorMinutes,
  skill: row.skillId,
  minLevel: row.minLevel,
  crewMin: row.crewMin,
  crewMax: row.crewMax,
  air: row.air,
  material: row.materialId,
  space: row.spaceId,
  movesTo: row.movesToId,
  parts: row.partIds,
  tools: row.tools.map(({ toolId, count }) => ({ tool: toolId, count })),
  splittable: row.splittable,
  breaks: row.breaks,
  cleanDownMinutes: row.cleanDownMinutes,
  holds: holdList.parse(row.holds),
  consumes: consumptionList.parse(row.consumes),
  quantity: quantityOrNull.parse(row.quantity),
  oneBatch: row.oneBatch,
  prepares: preparationList.parse(row.prepares),
  bonding: bondingWord.parse(row.bonding),
  // Both are set or neither (check `task_barrier`).
  barrier:
    row.barrierId === null ? null : { barrier: row.barrierId, closes: row.barrierCloses === true },
  slots: row.slotListId,
  price: row.price,
  sensitiveUntil: toMoment(row.sensitiveMinutes, row.sensitiveMilestone),
  coveredBy: row.coveredBy,
  state: taskStateSchema.parse(state),
  startedAt: row.startedAt && isoOf(row.startedAt),
  finishedAt: row.finishedAt && isoOf(row.finishedAt),
  crew: row.crew.map(({ memberId }) => memberId),
  fixedStart: row.fixedStartAt && isoOf(row.fixedStartAt),
  leftMinutes: row.leftMinutes,
  rework: row.reworkId,
  replaces: row.replacesId,
  portion: row.portion,
});

const minutesOf = (moment: Moment | null): number | null =>
  moment?.kind === 'after' ? moment.minutes : null;
const milestoneOf = (moment: Moment | null): string | null =>
  moment?.kind === 'milestone' ? moment.milestone : null;

function toMoment(minutes: number | null, milestone: string | null): Moment | null {
  if (minutes !== null) return { kind: 'after', minutes };
  if (milestone === null) return null;
  return { kind: 'milestone', milestone: milestoneSchema.parse(milestone) };
}

export function linkRow(
  yardId: string,
  { id, from, to, opens, closes, sweep, setBy, ...rest }: TaskLink,
): Prisma.TaskLinkCreateManyInput {
  nothingLeft(rest);
  return {
    yardId,
    id,
    fromTaskId: from,
    toTaskId: to,
    opensMinutes: minutesOf(opens),
    opensMilestone: milestoneOf(opens),
    closesMinutes: minutesOf(closes),
    closesMilestone: milestoneOf(closes),
    sweep,
    setBy,
  };
}

export const toTaskLink = (row: TaskLinkRow): TaskLink => ({
  id: row.id,
  from: row.fromTaskId,
  to: row.toTaskId,
  opens: toMoment(row.opensMinutes, row.opensMilestone),
  closes: toMoment(row.closesMinutes, row.closesMilestone),
  sweep: row.sweep,
  setBy: row.setBy,
});

export const toTaskChoice = (row: TaskChoiceRow): TaskChoice => ({
  id: row.id,
  name: row.name,
  partId: row.partId,
  branches: row.branches.map((branch) => ({
    id: branch.id,
    name: branch.name,
    tasks: branch.tasks.map(({ taskId }) => taskId),
    links: branch.links.map(({ linkId }) => linkId),
  })),
});

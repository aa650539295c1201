import { DomainError, fault } from '#kernel/error.ts';
import { effortTimes, percentTimes, speedOver } from '#live/learning/apply.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { lockWork } from '#persistence/workload/store.ts';
import { saveProcedure, toProcedure } from '#persistence/yard/procedures.ts';
import { workMinutes } from '#planning/workload/size.ts';
import { abilitySchema } from '#planning/yard/people.ts';
import type { Effort, Procedure } from '#planning/yard/procedures.ts';
import { spaceSchema } from '#planning/yard/spaces.ts';
import type { Tx } from '../../platform/database/database.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { ProductivityChange, ProductivityInput } from './productivity.contract.ts';

/** What was changed, for the answer and for the log. */
export interface Applied {
  readonly subject: 'procedure' | 'person' | 'space';
  readonly subjectId: string;
  readonly words: string;
  readonly before: Prisma.InputJsonValue;
  readonly after: Prisma.InputJsonValue;
  readonly tasks: number;
  readonly revision: number;
}

type Of<K extends ProductivityChange['kind']> = Extract<ProductivityChange, { kind: K }>;
type Word = Pick<ProductivityInput, 'factor' | 'revision' | 'alsoWaiting'>;

export function applyChange(tx: Tx, yardId: string, input: ProductivityInput): Promise<Applied> {
  const { change } = input;
  switch (change.kind) {
    case 'step':
      return applyToStep(tx, yardId, change, input);
    case 'person':
      return applyToPerson(tx, yardId, change, input);
    case 'space':
      return applyToSpace(tx, yardId, change, input);
  }
}

function wrong(path: string, value: unknown, message: string, cure: string): DomainError {
  const faults = [fault('input.field', path, message, { value, cure })];
  return new DomainError('input.field', `${path}: ${message}`, { cure, faults });
}

/** The change names a record that the yard has not. */
function noSuch(what: string, key: string, value: string): DomainError {
  const path = `change.${key}`;
  const message = `there is no ${what} "${value}"`;
  const faults = [fault('yard.reference', path, message, { value })];
  return new DomainError('yard.reference', `${path}: ${message}`, { faults });
}

/** A percentage that would leave what can be planned with, or stay the same, is nobody's wish. */
function assertPercent(
  what: string,
  before: number,
  after: number,
  { min, max }: { readonly min: number; readonly max: number },
  factor: number,
): void {
  if (after === before) {
    const message = `it changes nothing: ${what} stays ${String(before)} %`;
    throw wrong('factor', factor, message, 'Give one further from 1, or leave it as it is.');
  }
  if (after >= min && after <= max) return;
  const message = `${what} would be ${String(after)} %, outside ${String(min)} to ${String(max)}`;
  throw wrong('factor', factor, message, 'Give one nearer to 1, and look at the step’s effort.');
}

const limitsOf = ({
  minValue,
  maxValue,
}: {
  minValue: number | null;
  maxValue: number | null;
}) => ({
  min: minValue ?? 1,
  max: maxValue ?? Infinity,
});

async function applyToPerson(
  tx: Tx,
  yardId: string,
  { personId: id, skillId }: Of<'person'>,
  { factor, revision }: Word,
): Promise<Applied> {
  const member = await tx.member.findUnique({
    where: { yardId_id: { yardId, id } },
    include: { abilities: { where: { skillId }, include: { skill: true } } },
  });
  if (!member) throw noSuch('person', 'personId', id);
  const ability = member.abilities.at(0);
  if (!ability) {
    const message = `${member.name} has no skill "${skillId}"`;
    throw wrong('change.skillId', skillId, message, 'Name a skill that they have.');
  }
  const { name } = member;
  const speed = speedOver(ability.speed, factor);
  const what = `${name}’s speed at ${ability.skill.name}`;
  assertPercent(what, ability.speed, speed, limitsOf(abilitySchema.shape.speed.unwrap()), factor);
  // Their revision counts what is kept beside them as well.
  const where = { yardId, id, revision };
  changedOne(await tx.member.updateMany({ where, data: { name } }));
  await tx.memberSkill.updateMany({ where: { yardId, memberId: id, skillId }, data: { speed } });
  return {
    subject: 'person',
    subjectId: id,
    words: `${what} is planned with ${String(speed)} % instead of ${String(ability.speed)} %.`,
    before: { skillId, speed: ability.speed },
    after: { skillId, speed },
    tasks: 0,
    revision: revision + 1,
  };
}

async function applyToSpace(
  tx: Tx,
  yardId: string,
  { spaceId: id }: Of<'space'>,
  { factor, revision }: Word,
): Promise<Applied> {
  const space = await tx.space.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!space) throw noSuch('space', 'spaceId', id);
  const workPercent = percentTimes(space.workPercent, factor);
  const what = `what work takes in ${space.name}`;
  const limits = limitsOf(spaceSchema.shape.workPercent.unwrap());
  assertPercent(what, space.workPercent, workPercent, limits, factor);
  const where = { yardId, id, revision };
  changedOne(await tx.space.updateMany({ where, data: { workPercent } }));
  return {
    subject: 'space',
    subjectId: id,
    words: `Work in ${space.name} is planned with ${String(workPercent)} % instead of ${String(space.workPercent)} %.`,
    before: { workPercent: space.workPercent },
    after: { workPercent },
    tasks: 0,
    revision: revision + 1,
  };
}

async function applyToStep(
  tx: Tx,
  yardId: string,
  { procedureId: id, stepId }: Of<'step'>,
  { factor, revision, alsoWaiting }: Word,
): Promise<Applied> {
  await lockWork(tx, yardId);
  const current = await currentOf(tx, yardId, id);
  if (current.version !== revision) throw new DomainError('record.stale');
  const step = current.steps.find((one) => one.id === stepId);
  if (step === undefined) {
    const message = `the procedure has no step "${stepId}"`;
    throw wrong('change.stepId', stepId, message, 'Name one of its steps.');
  }
  const today = new Date().toISOString().slice(0, 10);
  const because = `The yard’s own work, ${today}: ${String(factor)} times as long.`;
  const effort = effortTimes(step.effort, factor, because);
  const [before, after] = [numbersOf(step.effort), numbersOf(effort)];
  if (JSON.stringify(before) === JSON.stringify(after)) {
    throw wrong('factor', factor, 'it changes nothing', 'Give one further from 1.');
  }
  const next: Procedure = {
    ...current,
    version: current.version + 1,
    steps: current.steps.map((one) => (one === step ? { ...one, effort } : one)),
  };
  await assertFits(tx, yardId, (yard) => withRecord(yard, 'procedures', next));
  await saveProcedure(tx, yardId, next);
  const tasks = alsoWaiting ? await sizeWaiting(tx, yardId, id, stepId, effort) : 0;
  return {
    subject: 'procedure',
    subjectId: id,
    words: `${step.name} of ${current.name} is planned with ${String(factor)} times its effort, in version ${String(next.version)}.`,
    before: { stepId, ...before },
    after: { stepId, ...after },
    tasks,
    revision: next.version,
  };
}

const numbersOf = ({ fixed, perM2, perEdgeM, perJointM }: Effort) => ({
  ...{ fixed, perM2, perEdgeM, perJointM },
});

async function currentOf(tx: Tx, yardId: string, id: string): Promise<Procedure> {
  const row = await tx.procedure.findFirst({
    where: { yardId, id },
    orderBy: { version: 'desc' },
  });
  if (!row) throw noSuch('procedure', 'procedureId', id);
  return toProcedure(row);
}

/** Gives tasks of a step that nobody has begun its new length; rework keeps what was asked of it. */
async function sizeWaiting(
  tx: Tx,
  yardId: string,
  procedureId: string,
  stepId: string,
  effort: Effort,
): Promise<number> {
  const tasks = await tx.task.findMany({
    where: { yardId, stepId, state: 'waiting', reworkId: null, job: { procedureId } },
    select: { id: true, workMinutes: true, part: true },
  });
  const byLength = new Map<number, string[]>();
  for (const { id, workMinutes: before, part } of tasks) {
    const minutes = workMinutes(effort, part);
    if (minutes !== before) byLength.set(minutes, [...(byLength.get(minutes) ?? []), id]);
  }
  let sized = 0;
  for (const [minutes, ids] of byLength) {
    const where = { yardId, id: { in: ids } };
    const { count } = await tx.task.updateMany({ where, data: { workMinutes: minutes } });
    sized += count;
  }
  return sized;
}

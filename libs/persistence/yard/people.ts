import { z } from 'zod';
import { overtimeSchema, type Person, type Shift, type Skill } from '#planning/yard/people.ts';
import type { Joined } from '../access/join.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import {
  asJson,
  dateOf,
  inOrder,
  insert,
  isoDateOf,
  minuteOf,
  nothingLeft,
  wallTimeOf,
} from '../rows.ts';

export async function saveSkills(
  tx: Transaction,
  yardId: string,
  skills: readonly Skill[],
): Promise<void> {
  const rows = skills.map(({ id, name, ...rest }): Prisma.SkillCreateManyInput => {
    nothingLeft(rest);
    return { yardId, id, name };
  });
  await insert(tx.skill, rows);
}

/**
 * Members with abilities and shifts. An e-mail joins nobody to an account: whoever first made one
 * under it would come in. Only the founder of a yard has one from the start.
 */
export async function saveMembers(
  tx: Transaction,
  yardId: string,
  people: readonly Person[],
  founder?: Joined,
): Promise<void> {
  const rows = people.map(
    ({
      id,
      name,
      email,
      roles,
      abilities: _a,
      shifts: _s,
      exceptions: _e,
      hourlyCost,
      overtime,
      overtimeHourlyExtra,
      ...rest
    }): Prisma.MemberCreateManyInput => {
      nothingLeft(rest);
      const accountId = id === founder?.memberId ? founder.accountId : null;
      const pay = payColumns({ hourlyCost, overtime, overtimeHourlyExtra });
      return { yardId, id, name, email, roles, accountId, ...pay };
    },
  );
  await insert(tx.member, rows);
  for (const person of people) await saveMemberDetails(tx, yardId, person);
}

/** What a member's work costs, and when they may be asked for more of it. */
export const payColumns = ({
  hourlyCost,
  overtime,
  overtimeHourlyExtra,
}: Pick<Person, 'hourlyCost' | 'overtime' | 'overtimeHourlyExtra'>) => ({
  hourlyCost,
  overtime: asJson(overtime),
  overtimeHourlyExtra,
});

/** Abilities, shifts and exceptions of a member who has none (yet, or after `clearMemberDetails`). */
export async function saveMemberDetails(
  tx: Transaction,
  yardId: string,
  {
    id: memberId,
    abilities,
    shifts,
    exceptions,
  }: Pick<Person, 'id' | 'abilities' | 'shifts' | 'exceptions'>,
): Promise<void> {
  await insert(
    tx.memberSkill,
    abilities.map(({ skill, level, speed, ...rest }): Prisma.MemberSkillCreateManyInput => {
      nothingLeft(rest);
      return { yardId, memberId, skillId: skill, level, speed };
    }),
  );
  await insert(
    tx.weeklyShift,
    shifts.map(({ weekday, ...shift }): Prisma.WeeklyShiftCreateManyInput => ({
      yardId,
      memberId,
      weekday,
      ...shiftColumns(shift),
    })),
  );
  await insert(
    tx.shiftException,
    exceptions.map(
      ({ date, reason, shifts: _s, ...rest }): Prisma.ShiftExceptionCreateManyInput => {
        nothingLeft(rest);
        return { yardId, memberId, date: dateOf(date), reason };
      },
    ),
  );
  await insert(
    tx.exceptionShift,
    exceptions.flatMap((exception) =>
      exception.shifts.map((shift): Prisma.ExceptionShiftCreateManyInput => ({
        yardId,
        memberId,
        date: dateOf(exception.date),
        ...shiftColumns(shift),
      })),
    ),
  );
}

export async function clearMemberDetails(
  tx: Transaction,
  yardId: string,
  memberId: string,
): Promise<void> {
  const where = { yardId, memberId };
  await tx.memberSkill.deleteMany({ where });
  await tx.weeklyShift.deleteMany({ where });
  await tx.shiftException.deleteMany({ where });
}

function shiftColumns({ from, to, breaks, ...rest }: Shift) {
  nothingLeft(rest);
  return {
    fromMinute: minuteOf(from),
    toMinute: minuteOf(to),
    breakFrom: breaks.map((pause) => minuteOf(pause.from)),
    breakTo: breaks.map((pause) => minuteOf(pause.to)),
  };
}

function toShift(row: {
  fromMinute: number;
  toMinute: number;
  breakFrom: number[];
  breakTo: number[];
}): Shift {
  return {
    from: wallTimeOf(row.fromMinute),
    to: wallTimeOf(row.toMinute),
    breaks: row.breakFrom.map((from, index) => ({
      from: wallTimeOf(from),
      to: wallTimeOf(row.breakTo[index]),
    })),
  };
}

export async function loadSkills(tx: Transaction, yardId: string): Promise<Skill[]> {
  const rows = await tx.skill.findMany({ where: { yardId }, ...inOrder });
  return rows.map(({ id, name }) => ({ id, name }));
}

/** What a member row is read with, to become a person. */
export const memberDetails = {
  abilities: inOrder,
  shifts: inOrder,
  exceptions: { ...inOrder, include: { shifts: inOrder } },
} as const satisfies Prisma.MemberInclude;

export type MemberRow = Prisma.MemberGetPayload<{ include: typeof memberDetails }>;

const overtimeList = z.array(overtimeSchema);

export const toPerson = (row: MemberRow): Person => ({
  id: row.id,
  name: row.name,
  email: row.email,
  roles: row.roles,
  abilities: row.abilities.map(({ skillId, level, speed }) => ({ skill: skillId, level, speed })),
  shifts: row.shifts.map((shift) => ({ weekday: shift.weekday, ...toShift(shift) })),
  exceptions: row.exceptions.map(({ date, reason, shifts }) => ({
    date: isoDateOf(date),
    shifts: shifts.map(toShift),
    reason,
  })),
  hourlyCost: row.hourlyCost,
  overtime: overtimeList.parse(row.overtime),
  overtimeHourlyExtra: row.overtimeHourlyExtra,
});

export async function loadPeople(tx: Transaction, yardId: string): Promise<Person[]> {
  const rows = await tx.member.findMany({ where: { yardId }, ...inOrder, include: memberDetails });
  return rows.map(toPerson);
}

import { DomainError } from '#kernel/error.ts';
import {
  clearMemberDetails,
  memberDetails,
  type MemberRow,
  payColumns,
  saveMemberDetails,
  saveMembers,
  toPerson,
} from '#persistence/yard/people.ts';
import type { Person as PersonInput } from '#planning/yard/people.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';

/** As the yard file has it, and whether it has an account. */
export type StoredPerson = PersonInput & {
  readonly hasAccount: boolean;
  readonly revision: number;
};

export async function listPeople(
  tx: Tx,
  yardId: string,
  page: PageRequest,
): Promise<Page<StoredPerson>> {
  const { where, ...rest } = pageArgs(page);
  const rows = await tx.member.findMany({
    where: { yardId, ...where },
    ...rest,
    include: memberDetails,
  });
  return toPage(rows, page, showPerson);
}

export async function findPerson(tx: Tx, yardId: string, id: string): Promise<StoredPerson> {
  const row = await tx.member.findUnique({
    where: { yardId_id: { yardId, id } },
    include: memberDetails,
  });
  if (!row) throw new DomainError('record.missing', `There is no person "${id}".`);
  return showPerson(row);
}

const showPerson = (row: MemberRow): StoredPerson => ({
  ...toPerson(row),
  hasAccount: row.accountId !== null,
  revision: row.revision,
});

/** Without an account, whatever the e-mail: that takes an invitation. */
export async function insertPerson(tx: Tx, yardId: string, person: PersonInput): Promise<void> {
  await saveMembers(tx, yardId, [person]);
}

/** The account a person signs in with stays: a changed e-mail address is not another human. */
export async function updatePerson(
  tx: Tx,
  yardId: string,
  revision: number,
  person: PersonInput,
): Promise<void> {
  const { id, name, email, roles } = person;
  changedOne(
    await tx.member.updateMany({
      where: { yardId, id, revision },
      data: { name, email, roles, ...payColumns(person) },
    }),
  );
  await clearMemberDetails(tx, yardId, id);
  await saveMemberDetails(tx, yardId, person);
}

/** The person stays, with all that they did; nobody signs in as them any more. */
export async function removeAccount(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  const data = { accountId: null };
  changedOne(await tx.member.updateMany({ where: { yardId, id, revision }, data }));
}

export async function deletePerson(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  try {
    await deletedOne(tx.member.deleteMany({ where: { yardId, id, revision } }));
  } catch (error) {
    if (!(error instanceof DomainError && error.code === 'record.in-use')) throw error;
    throw new DomainError('record.in-use', `"${id}" has work, boats or changes to their name.`, {
      cure: 'End the person’s access instead, or remove what is theirs first.',
    });
  }
}

/**
 * A yard that nobody could manage any more would be lost to its people. To be called after the event
 * of the change: who writes one waits for whoever else did, so that of two who take each other's
 * role at once the second sees what the first did.
 */
export async function assertForeman(tx: Tx, yardId: string): Promise<void> {
  const foreman = await tx.member.findFirst({
    where: { yardId, roles: { has: 'foreman' }, accountId: { not: null } },
  });
  if (!foreman) {
    throw new DomainError(
      'record.in-use',
      'The yard would be left without a foreman who can sign in.',
      {
        cure: 'Make another person with an account foreman first.',
      },
    );
  }
}

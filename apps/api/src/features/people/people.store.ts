import { DomainError } from '#kernel/error.ts';
import {
  clearMemberDetails,
  memberDetails,
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

/** As the yard file has it. */
export type StoredPerson = PersonInput & { readonly revision: number };

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
  return toPage(rows, page, (row) => ({ ...toPerson(row), revision: row.revision }));
}

export async function findPerson(tx: Tx, yardId: string, id: string): Promise<StoredPerson> {
  const row = await tx.member.findUnique({
    where: { yardId_id: { yardId, id } },
    include: memberDetails,
  });
  if (!row) throw new DomainError('record.missing', `There is no person "${id}".`);
  return { ...toPerson(row), revision: row.revision };
}

/** Joined to the account that has the e-mail, if there is one. */
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

export async function deletePerson(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
): Promise<void> {
  await deletedOne(tx.member.deleteMany({ where: { yardId, id, revision } }));
}

/** A yard that nobody could manage any more would be lost to its people. */
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

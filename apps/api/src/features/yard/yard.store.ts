import { DomainError } from '#kernel/error.ts';
import { asJson, isoOf } from '#persistence/rows.ts';
import type { Yard as YardRow } from '#persistence/generated/client.ts';
import { loadOutdoor } from '#persistence/yard/spaces.ts';
import { toConsumables } from '#persistence/yard/store.ts';
import { personSchema } from '#planning/yard/people.ts';
import type { Account } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import type { Outdoor, Yard, YardFile } from './yard.contract.ts';

export async function findYard(tx: Tx, id: string): Promise<Yard> {
  const row = await tx.yard.findUnique({ where: { id } });
  if (!row) throw new DomainError('record.missing', 'There is no such yard.');
  return showYard(row);
}

export async function updateYard(tx: Tx, revision: number, yard: Yard): Promise<void> {
  const { id, planFrom, consumables, ...same } = withoutRevision(yard);
  const data = { ...same, planFrom: new Date(planFrom), consumables: asJson(consumables) };
  changedOne(await tx.yard.updateMany({ where: { id, revision }, data }));
}

export async function findOutdoor(tx: Tx, yardId: string): Promise<Outdoor> {
  const outdoor = await loadOutdoor(tx, yardId);
  const row = await tx.outdoor.findUnique({ where: { yardId }, select: { revision: true } });
  if (!outdoor || !row)
    throw new DomainError('record.missing', 'The yard has no outdoor temperatures yet.');
  return { ...outdoor, revision: row.revision };
}

export function showYard(row: YardRow): Yard {
  const { id, name, timeZone, horizonDays, currency, moneyTolerance, revision } = row;
  return {
    id,
    name,
    timeZone,
    planFrom: isoOf(row.planFrom),
    horizonDays,
    currency,
    moneyTolerance,
    cupShare: row.cupShare,
    powerWatts: row.powerWatts,
    consumables: toConsumables(row.consumables),
    revision,
  };
}

/**
 * Who imports a yard is its foreman: the person in it with the account's e-mail, or else a
 * further one, named after the account.
 */
export function withForeman(
  file: YardFile,
  account: Account,
): { file: YardFile; memberId: string } {
  const own = file.people.find(({ email }) => email?.toLowerCase() === account.email);
  if (own) {
    const roles = own.roles.includes('foreman') ? own.roles : (['foreman', ...own.roles] as const);
    const people = file.people.map((person) =>
      person === own ? { ...own, roles: [...roles] } : person,
    );
    return { file: { ...file, people }, memberId: own.id };
  }
  const taken = new Set(file.people.map(({ id }) => id));
  let memberId = 'foreman';
  for (let n = 2; taken.has(memberId); n += 1) memberId = `foreman-${String(n)}`;
  const { name, email } = account;
  const foreman = personSchema.parse({ id: memberId, name, email, roles: ['foreman'] });
  return { file: { ...file, people: [...file.people, foreman] }, memberId };
}

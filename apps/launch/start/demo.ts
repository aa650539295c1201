import { readFile } from 'node:fs/promises';
import { hash } from '@node-rs/argon2';
import { createClient, type Transaction, withoutYard } from '#persistence/client.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Role } from '#planning/yard/people.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { inComingWeeks } from './coming-weeks.ts';
import { yards, type YardChoice } from './settings.ts';

/** Known to all who read this: accounts with it are for a machine of one's own. */
export const demoPassword = 'cure-window-demo';
/** RFC 2606: nobody can have an address there. */
const demoDomain = '.invalid';

/** A demo account and whom it is in its yard. */
export interface DemoSignIn {
  readonly email: string;
  readonly name: string;
  readonly yardId: string;
  readonly roles: readonly Role[];
}

export interface Contents {
  readonly yards: number;
  readonly demo: readonly DemoSignIn[];
}

/** What the database holds already. */
export function contentsOf(serviceUrl: string): Promise<Contents> {
  return withDatabase(serviceUrl, async (tx) => {
    const accounts = await tx.account.findMany({
      where: { email: { endsWith: demoDomain } },
      include: { members: { orderBy: { yardId: 'asc' } } },
      orderBy: { createdAt: 'asc' },
    });
    const demo = accounts.flatMap(({ email, members }) =>
      members.map(({ name, yardId, roles }) => ({ email, name, yardId, roles })),
    );
    return { yards: await tx.yard.count(), demo };
  });
}

/** The yard of the choice, in the coming weeks. */
export async function demoYard(choice: YardChoice, now: Date): Promise<Yard> {
  const file = yards[choice];
  const text = await readFile(new URL(`../../../seeds/${file}`, import.meta.url), 'utf8');
  return inComingWeeks(readYard(JSON.parse(text), file), now);
}

/** Accounts for the people of the yard, for them to be joined to it when it is imported. */
export async function makeAccounts(serviceUrl: string, { people }: Yard): Promise<void> {
  const accounts: { name: string; email: string; passwordHash: string }[] = [];
  for (const { name, email } of people) {
    if (email !== null) accounts.push({ name, email, passwordHash: await hash(demoPassword) });
  }
  await withDatabase(serviceUrl, (tx) =>
    tx.account.createMany({ data: accounts, skipDuplicates: true }),
  );
}

async function withDatabase<T>(
  serviceUrl: string,
  work: (tx: Transaction) => Promise<T>,
): Promise<T> {
  const prisma = createClient(serviceUrl, { connections: 1 });
  try {
    return await withoutYard(prisma, work);
  } finally {
    await prisma.$disconnect();
  }
}

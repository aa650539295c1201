import { randomUUID } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { hash } from '@node-rs/argon2';
import { joinMember } from '#persistence/access/join.ts';
import { hasYards, signInAccount } from '#persistence/access/lookups.ts';
import { asAccount, createClient, inYard, service } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Role } from '#planning/yard/people.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { inComingWeeks } from './coming-weeks.ts';
import { yards, type YardChoice } from './settings.ts';

/** Known to all who read this: accounts with it are for a machine of one's own. */
export const demoPassword = 'cure-window-demo';

/** A demo account and whom it is in its yard. */
export interface DemoSignIn {
  readonly email: string;
  readonly name: string;
  readonly yardId: string;
  readonly roles: readonly Role[];
}

export interface Contents {
  readonly hasYards: boolean;
  readonly demo: readonly DemoSignIn[];
}

/** What the database holds already. */
export function contentsOf(serviceUrl: string): Promise<Contents> {
  return withDatabase(serviceUrl, async (prisma) => {
    const demo: DemoSignIn[] = [];
    for (const email of await demoEmails()) {
      const account = await signInAccount(prisma, email);
      if (account === null) continue;
      const { accountId } = account;
      const members = await asAccount(prisma, accountId, (tx) =>
        tx.member.findMany({ where: { accountId }, orderBy: { yardId: 'asc' } }),
      );
      demo.push(...members.map(({ name, yardId, roles }) => ({ email, name, yardId, roles })));
    }
    return { hasYards: await hasYards(prisma), demo };
  });
}

/** The yard of the choice, in the coming weeks. */
export const demoYard = async (choice: YardChoice, now: Date): Promise<Yard> =>
  inComingWeeks(await seedOf(choice), now);

/** Accounts for the people of the yard who have none yet. */
export function makeAccounts(serviceUrl: string, yard: Yard): Promise<void> {
  return withDatabase(serviceUrl, async (prisma) => {
    for (const { name, email } of emailed(yard)) {
      if ((await signInAccount(prisma, email)) !== null) continue;
      const id = randomUUID();
      const passwordHash = await hash(demoPassword);
      await asAccount(prisma, id, (tx) =>
        tx.account.create({ data: { id, name, email, passwordHash } }),
      );
    }
  });
}

/** Joins those accounts to the yard as if all had been invited; its founder came with it. */
export function joinAccounts(serviceUrl: string, yard: Yard, founderId: string): Promise<void> {
  return withDatabase(serviceUrl, async (prisma) => {
    const others = emailed(yard).filter(({ id }) => id !== founderId);
    const accounts = new Map<string, string>();
    for (const { id, email } of others) {
      const account = await signInAccount(prisma, email);
      if (account !== null) accounts.set(id, account.accountId);
    }
    await inYard(prisma, service(yard.id), async (tx) => {
      for (const [memberId, accountId] of accounts) {
        await joinMember(tx, { yardId: yard.id, memberId, accountId });
      }
    });
  });
}

async function seedOf(choice: YardChoice): Promise<Yard> {
  const file = yards[choice];
  const text = await readFile(new URL(`../../../seeds/${file}`, import.meta.url), 'utf8');
  return readYard(JSON.parse(text), file);
}

/** Of all demo yards, each once. */
async function demoEmails(): Promise<ReadonlySet<string>> {
  const seeds = await Promise.all([seedOf('demo'), seedOf('one')]);
  return new Set(seeds.flatMap((yard) => emailed(yard).map(({ email }) => email)));
}

/** The people who have an e-mail, which is what an account has of it: in lower case. */
const emailed = ({ people }: Yard): { id: string; name: string; email: string }[] =>
  people.flatMap(({ id, name, email }) =>
    email === null ? [] : [{ id, name, email: email.toLowerCase() }],
  );

async function withDatabase<T>(
  serviceUrl: string,
  work: (prisma: PrismaClient) => Promise<T>,
): Promise<T> {
  const prisma = createClient(serviceUrl, { connections: 1 });
  try {
    return await work(prisma);
  } finally {
    await prisma.$disconnect();
  }
}

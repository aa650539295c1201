import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { z } from 'zod';
import { databaseAddress, readEnvironment, wholeNumber } from '#host/environment.ts';
import { linkTo } from '#host/links.ts';
import { DomainError } from '#kernel/error.ts';
import {
  addAccount,
  dropFactors,
  type Ended,
  endAllAccess,
  openPasswordReset,
  resetMinutes,
} from '#persistence/access/accounts.ts';
import { signInAccount } from '#persistence/access/lookups.ts';
import { asAccount, createClient, enter, type Transaction } from '#persistence/client.ts';
import { attachEmbedded } from '#persistence/embedded/attach.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { assertMigrated, assertReachable } from '#persistence/reach.ts';
import { type AccountArguments, readArguments } from './arguments.ts';
import { UsageError } from '../words.ts';

const environment = z.object({
  DATABASE_URL: databaseAddress.optional(),
  CUREWRIGHT_FOLDER: z.string().default('.curewright'),
  PORT: wholeNumber(0, 65_535).default(3000),
  PUBLIC_URL: z.url({ protocol: /^https?$/, error: 'use https://yard.example' }).optional(),
});
type Environment = z.output<typeof environment>;

/** The documented exit codes. */
const exit = { done: 0, failed: 1, badInput: 2 } as const;

/** What to print. */
async function act(
  prisma: PrismaClient,
  { command, email, name }: AccountArguments,
  publicUrl: URL,
): Promise<string[]> {
  const link = (token: string): string[] => [
    `A link to set the password, good once and for ${String(resetMinutes)} minutes:`,
    linkTo(publicUrl, 'password', token),
  ];
  if (command === 'add') {
    const id = randomUUID();
    const token = await onAccount(prisma, id, async (tx) => {
      await addAccount(tx, { id, email, name });
      return openPasswordReset(tx, id);
    });
    return [
      `The account ${email} is made. Into a yard it comes by an invitation, or as foreman of one that it sends in.`,
      ...link(token),
    ];
  }
  const known = await signInAccount(prisma, email);
  if (known === null) {
    const cure = 'Correct the address, or make one with add.';
    throw new DomainError('record.missing', `There is no account "${email}".`, { cure });
  }
  const { accountId } = known;
  return onAccount(prisma, accountId, async (tx) => {
    switch (command) {
      case 'reset-link':
        return link(await openPasswordReset(tx, accountId));
      case 'close-sessions':
        return [`${email}: ${ended(await endAllAccess(tx, accountId))}.`];
      case 'drop-factor': {
        const gone = await dropFactors(tx, accountId);
        return [
          `${email}: removed ${counted(gone.authenticators, 'authenticator')}, ` +
            `${counted(gone.recoveryCodes, 'recovery code')}, ${counted(gone.passkeys, 'passkey')}; ` +
            `${ended(await endAllAccess(tx, accountId))}.`,
        ];
      }
    }
  });
}

/** Work on what belongs to the account, by somebody else: the audit is not to say that it was its own. */
function onAccount<T>(
  prisma: PrismaClient,
  accountId: string,
  work: (tx: Transaction) => Promise<T>,
): Promise<T> {
  return asAccount(prisma, accountId, async (tx) => {
    const done = await work(tx);
    await enter(tx, { as: 'nobody' });
    return done;
  });
}

const counted = (count: number, what: string): string =>
  `${String(count)} ${what}${count === 1 ? '' : 's'}`;

const ended = ({ sessions, programKeys }: Ended): string =>
  `${counted(sessions, 'session')} closed, ${counted(programKeys, 'program key')} ended`;

/** The database that was named, or the embedded one, whether or not `npm start` runs it. */
async function withDatabase<T>(
  { DATABASE_URL: url, CUREWRIGHT_FOLDER: folder }: Environment,
  use: (prisma: PrismaClient) => Promise<T>,
): Promise<T> {
  if (url !== undefined) {
    await assertReachable('DATABASE_URL', url);
    await assertMigrated('DATABASE_URL', url);
    return withClient(url, use);
  }
  const embedded = await attachEmbedded(join(folder, 'postgres'));
  try {
    return await withClient(embedded.serviceUrl, use);
  } finally {
    await embedded.stop();
  }
}

async function withClient<T>(url: string, use: (prisma: PrismaClient) => Promise<T>): Promise<T> {
  const prisma = createClient(url, { connections: 1 });
  try {
    return await use(prisma);
  } finally {
    await prisma.$disconnect();
  }
}

/** What a command has to say, and the code that its process ends with. */
interface Outcome {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** `words` after the command; `env` as of a process. */
export async function runAccount(
  words: readonly string[],
  variables: Readonly<Record<string, string | undefined>>,
): Promise<Outcome> {
  try {
    const given = readArguments(words);
    const env = readEnvironment(environment, variables);
    const publicUrl = new URL(env.PUBLIC_URL ?? `http://localhost:${String(env.PORT)}`);
    const lines = await withDatabase(env, (prisma) => act(prisma, given, publicUrl));
    return { code: exit.done, stdout: `${lines.join('\n')}\n`, stderr: '' };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const cure = error instanceof DomainError ? ` ${error.cure}` : '';
    const code = error instanceof UsageError ? exit.badInput : exit.failed;
    return { code, stdout: '', stderr: `${message}${cure}\n` };
  }
}

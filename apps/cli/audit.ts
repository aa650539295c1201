/** `npm run audit`: whether what was written down of all changes is still whole. See `audit/arguments.ts` for its words. */
import { join } from 'node:path';
import type { Client } from 'pg';
import { z } from 'zod';
import { databaseAddress, readEnvironment } from '#host/environment.ts';
import { chainsOf, headOf, verifyChain } from '#persistence/audit/verify.ts';
import { attachEmbedded } from '#persistence/embedded/attach.ts';
import { assertMigrated, assertReachable } from '#persistence/reach.ts';
import { withClient } from '#persistence/roles.ts';
import { type AuditArguments, readArguments } from './audit/arguments.ts';
import { endWords, headLine, reportOf } from './audit/report.ts';
import { UsageError } from './words.ts';

const environment = z.object({
  DATABASE_URL: databaseAddress.optional(),
  MIGRATE_DATABASE_URL: databaseAddress.optional(),
  CUREWRIGHT_FOLDER: z.string().default('.curewright'),
});
type Environment = z.output<typeof environment>;

/** The documented exit codes; `broken` is for anything that keeps a chain from being called whole. */
const exit = { whole: 0, broken: 1, badInput: 2 } as const;

const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

async function audit(owner: Client, { command, chain, head }: AuditArguments): Promise<number> {
  const known = await chainsOf(owner);
  // With a hash that was noted, a chain that is gone is a finding and no slip of the pen.
  if (chain !== null && head === null && !known.includes(chain)) {
    throw new UsageError(`--yard "${chain}": there is no such yard. Correct the id.`);
  }
  const wanted = chain === null ? known : [chain];
  if (command === 'head') {
    for (const each of wanted) say(headLine(each, await headOf(owner, each)));
    return exit.whole;
  }
  let code: number = exit.whole;
  for (const each of wanted) {
    const { lines, whole } = reportOf(each, head, await verifyChain(owner, each, head));
    lines.forEach(say);
    if (!whole) code = exit.broken;
  }
  if (head === null) say(endWords);
  return code;
}

/** As the owner of the tables: nobody else sees the rows of all yards and of the accounts. */
async function withOwner<T>(env: Environment, use: (owner: Client) => Promise<T>): Promise<T> {
  const { DATABASE_URL, MIGRATE_DATABASE_URL: url, CUREWRIGHT_FOLDER: folder } = env;
  if (url !== undefined) {
    await assertReachable('MIGRATE_DATABASE_URL', url);
    await assertMigrated('MIGRATE_DATABASE_URL', url);
    return withClient(url, use);
  }
  if (DATABASE_URL !== undefined) {
    throw new Error(
      'MIGRATE_DATABASE_URL is not set: give it the address of the same database as its owner, ' +
        'curewright_owner; the service itself may not see the changes of all yards.',
    );
  }
  const embedded = await attachEmbedded(join(folder, 'postgres'));
  try {
    return await withClient(embedded.ownerUrl, use);
  } finally {
    await embedded.stop();
  }
}

async function main(words: readonly string[]): Promise<number> {
  try {
    const given = readArguments(words);
    const env = readEnvironment(environment, process.env);
    return await withOwner(env, (owner) => audit(owner, given));
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    return exit.badInput;
  }
}

process.exitCode = await main(process.argv.slice(2));

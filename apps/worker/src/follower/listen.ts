import { setTimeout as sleep } from 'node:timers/promises';
import postgres from 'postgres';
import type { PrismaClient } from '#persistence/generated/client.ts';

/** The database tells it of every committed event, `<yardId>:<id>`. */
const channel = 'curewright_event';
/** What was told while nobody listened is found by looking. */
const lookMs = 2_000;

export interface Listening {
  readonly databaseUrl: string;
  readonly prisma: PrismaClient;
  /** There may be something new in the yard. */
  readonly tell: (yardId: string) => void;
  readonly say: (line: string) => void;
}

const wordsOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

/**
 * Hears of new events of all yards until it is told to stop, and looks for what it did not hear.
 * Where the database is away it says so once, and listens anew as soon as it is back.
 */
export async function listen(listening: Listening): Promise<{ stop(): Promise<void> }> {
  const ending = new AbortController();
  const first = await hear(listening);
  const looking = lookAround(listening, first, ending.signal);
  return {
    stop: async () => {
      ending.abort();
      await looking;
    },
  };
}

async function hear({ databaseUrl, tell }: Listening): Promise<postgres.Sql> {
  const sql = postgres(databaseUrl, {
    max: 1,
    onnotice: () => undefined,
    connection: { application_name: 'curewright-follower' },
  });
  try {
    await sql.listen(channel, (told) => tell(told.slice(0, told.lastIndexOf(':'))));
    return sql;
  } catch (error) {
    await sql.end({ timeout: 0 });
    throw error;
  }
}

async function lookAround(
  listening: Listening,
  first: postgres.Sql,
  ending: AbortSignal,
): Promise<void> {
  const { prisma, tell, say } = listening;
  let sql: postgres.Sql | null = first;
  while (!ending.aborted) {
    try {
      const behind = await prisma.$queryRaw<{ id: string }[]>`SELECT yards_behind() AS id`;
      for (const { id } of behind) tell(id);
      if (sql === null) {
        sql = await hear(listening);
        say('follower: the database is back');
      }
    } catch (error) {
      if (sql !== null) {
        say(`follower: ${wordsOf(error)}`);
        await sql.end({ timeout: 0 }).catch(() => undefined);
      }
      sql = null;
    }
    await sleep(lookMs, undefined, { signal: ending }).catch(() => undefined);
  }
  await sql?.end({ timeout: 1 });
}

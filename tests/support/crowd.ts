import { randomUUID } from 'node:crypto';
import { addDays } from '#calendar/local-date.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { inYard, service } from '#persistence/client.ts';
import { saveTasks } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema, type Yard, type YardInput } from '#planning/yard/yard.ts';
import { smallYard } from './small-yard.ts';
import type { TestDatabase } from './database.ts';

/** A builder who is signed in. */
export interface Hand {
  readonly id: string;
  readonly token: string;
}

const two = (k: number): string => String(k).padStart(3, '0');

/**
 * So many builders, each able to do each of so many pieces of dry work, a part each, in a shed with
 * room for all. Its plan began a week ago.
 */
export function crowdedYard(id: string, builders: number, pieces: number): Yard {
  const small = smallYard(id, 'Crowded yard');
  const from = `${addDays(new Date().toISOString().slice(0, 10), -7)}T00:00:00Z`;
  const bram = small.people?.find((person) => person.id === 'bram');
  const [bay] = small.spaces ?? [];
  const [procedure] = small.procedures ?? [];
  const fit = procedure.steps.find((step) => step.id === 'fair');
  const [boat] = small.boats ?? [];
  const [refit] = boat.refits ?? [];
  if (bram === undefined || fit === undefined) throw new Error('the small yard has both');
  return yardSchema.parse({
    ...small,
    planFrom: from,
    people: [
      ...(small.people ?? []),
      ...Array.from({ length: builders }, (_, k) => ({
        ...bram,
        id: `hand-${two(k)}`,
        name: `Hand ${two(k)}`,
        email: null,
      })),
    ],
    spaces: [{ ...bay, room: 1000, dustReaches: [] }, ...(small.spaces ?? []).slice(1)],
    procedures: [{ ...procedure, steps: [{ ...fit, air: 'clean', crewMax: 4 }], links: [] }],
    boats: [
      {
        ...boat,
        refits: [
          {
            ...refit,
            release: from,
            parts: Array.from({ length: pieces }, (_, k) => ({
              id: `panel-${two(k)}`,
              name: `Panel ${two(k)}`,
              space: 'bay',
              areaM2: 1,
              jobs: [{ id: `job-${two(k)}`, procedure: procedure.id }],
            })),
          },
        ],
      },
    ],
  } satisfies YardInput);
}

/** Stores a yard with its tasks, past the service. */
export async function storeYard({ service: client }: TestDatabase, yard: Yard): Promise<void> {
  await inYard(
    client,
    service(yard.id),
    async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, yard.id, makeWorkload(yard));
    },
    { timeout: 300_000 },
  );
}

/** Gives people of a yard an account and a session each, past the service: no password is hashed. */
export async function signedIn(
  { owner }: TestDatabase,
  yardId: string,
  memberIds: readonly string[],
): Promise<Hand[]> {
  const made = memberIds.map((id) => ({ id, accountId: randomUUID(), token: newToken() }));
  await owner.account.createMany({
    data: made.map(({ id, accountId }) => ({
      id: accountId,
      email: `${id}@${yardId}.test`,
      name: id,
    })),
  });
  await owner.session.createMany({
    data: made.map(({ accountId, token }) => ({
      tokenHash: hashOf(token),
      accountId,
      expiresAt: new Date(Date.now() + 86_400_000),
    })),
  });
  for (const { id, accountId } of made) {
    await owner.member.update({
      where: { yardId_id: { yardId, id } },
      data: { accountId },
    });
  }
  return made.map(({ id, token }) => ({ id, token }));
}

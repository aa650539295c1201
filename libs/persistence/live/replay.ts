import { untouched, type TaskLife } from '#live/life/life.ts';
import { replay, type Logged } from '#live/life/replay.ts';
import { sameLife } from '#live/life/undo.ts';
import type { Transaction } from '../client.ts';
import { loadLives } from './load-lives.ts';

const page = 2000;

async function readAll(tx: Transaction, yardId: string): Promise<Logged[]> {
  const log: Logged[] = [];
  for (let last = 0n; ;) {
    const rows = await tx.event.findMany({
      where: { yardId, id: { gt: last } },
      orderBy: { id: 'asc' },
      take: page,
      select: { id: true, kind: true, subject: true, subjectId: true, payload: true },
    });
    log.push(...rows.map((row) => ({ ...row, id: String(row.id) })));
    if (rows.length < page) return log;
    last = rows[rows.length - 1].id;
  }
}

function difference(taskId: string, logged: TaskLife, stored: TaskLife): string {
  const fields = Object.keys(stored).filter((field) => {
    const [a, b] = [logged, stored].map((life): unknown => Reflect.get(life, field));
    return JSON.stringify(a) !== JSON.stringify(b);
  });
  const told = fields.map((field) => {
    const [a, b] = [logged, stored].map((life): unknown => Reflect.get(life, field));
    return `${field} is ${JSON.stringify(b)}, and by the log ${JSON.stringify(a)}`;
  });
  return `${taskId}: ${told.join('; ')}`;
}

/**
 * Every difference, in words, between what is stored of the yard's tasks and what its log says, and
 * every place at which the log does not follow from itself; none: the log replays to exactly what is
 * stored. In a transaction with one snapshot, or while nobody reports.
 */
export async function verifyReplay(tx: Transaction, yardId: string): Promise<readonly string[]> {
  const { lives, breaks } = replay(await readAll(tx, yardId));
  const stored = await loadLives(tx, yardId);
  const known = new Set([...lives.keys(), ...stored.keys()]);
  const differences = [...known].sort().flatMap((taskId) => {
    const logged = lives.get(taskId) ?? untouched();
    const kept = stored.get(taskId) ?? untouched();
    return sameLife(logged, kept) ? [] : [difference(taskId, logged, kept)];
  });
  return [...breaks, ...differences];
}

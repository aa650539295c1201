import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { inYard, type Transaction, withoutYard } from '#persistence/client.ts';
import { refusalOf } from '#persistence/refusal.ts';
import { loadWorkload, saveTasks } from '#persistence/workload/store.ts';
import { loadProcedures, saveProcedure } from '#persistence/yard/procedures.ts';
import { loadYard, saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema, type Yard } from '#planning/yard/yard.ts';
import { testDatabase } from '#tests/support/database.ts';
import { defaultsOf } from './defaults.ts';
import { smallYard } from './small-yard.ts';
import { wholeYard } from './whole-yard.ts';

const database = testDatabase();

const within = <T>(yardId: string, work: (tx: Transaction) => Promise<T>): Promise<T> =>
  inYard(database.service, { yardId, personId: null }, work);

async function seedYard(file: string): Promise<Yard> {
  const text = await readFile(new URL(`../../../seeds/${file}`, import.meta.url), 'utf8');
  return yardSchema.parse(JSON.parse(text));
}

/** The same with every instant in UTC, as the database gives it back. */
const inUtc = <T>(value: T): T =>
  JSON.parse(
    JSON.stringify(value, (_key, field: unknown) =>
      typeof field === 'string' && /^\d{4}-\d\d-\d\dT/.test(field)
        ? new Date(field).toISOString().replace('.000Z', 'Z')
        : field,
    ),
  ) as T;

describe('a yard', () => {
  const yards: [string, () => Promise<Yard>][] = [
    ['the demo yard', () => seedYard('demo-yard.json')],
    ['the yard of one', () => seedYard('yard-of-one.json')],
    ['the small yard', () => Promise.resolve(smallYard('small'))],
    ['the yard that says everything', () => Promise.resolve(wholeYard('whole'))],
  ];
  it.each(yards)('%s comes back as it was stored, and its tasks too', async (_name, make) => {
    const yard = await make();
    const workload = makeWorkload(yard);
    expect(workload.tasks.length).toBeGreaterThan(0);
    await within(yard.id, async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, yard.id, workload);
    });
    expect(await within(yard.id, (tx) => loadYard(tx, yard.id))).toEqual(inUtc(yard));
    expect(await within(yard.id, (tx) => loadWorkload(tx, yard.id))).toEqual(workload);
  });

  it('that says everything leaves nothing at its default', () => {
    const untried = [...defaultsOf(yardSchema, [wholeYard('whole')])]
      .filter(([, differs]) => !differs)
      .map(([path]) => path);
    expect(untried).toEqual([]);
  });

  it('keeps what the foreman set for a task, and whose order a link is', async () => {
    const yard = wholeYard('set');
    const made = makeWorkload(yard);
    const workload = {
      ...made,
      tasks: made.tasks.map((task, i) =>
        i === 0 ? { ...task, fixedStart: '2027-01-05T09:00:00Z', crew: ['ann'] } : task,
      ),
      links: made.links.map((link, i) => (i === 0 ? { ...link, setBy: 'foreman' as const } : link)),
    };
    await within('set', async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, 'set', workload);
    });
    expect(await within('set', (tx) => loadWorkload(tx, 'set'))).toEqual(workload);
  });

  it('keeps what its procedures and jobs use', async () => {
    await within('used', (tx) => saveYard(tx, wholeYard('used')));
    const used = [
      ['tool', 'clamp', 'procedure_use_yard_id_tool_id_fkey'],
      ['stock', 'cloth', 'procedure_use_yard_id_stock_id_fkey'],
      ['barrier', 'curtain', 'procedure_use_yard_id_barrier_id_fkey'],
      ['slot_list', 'crane', 'procedure_use_yard_id_slot_list_id_fkey'],
      ['delivery', 'teak', 'job_wait_yard_id_delivery_id_fkey'],
      ['fabric', 'mat', 'procedure_use_yard_id_fabric_id_fkey'],
    ];
    for (const [table, id, constraint] of used) {
      const error: unknown = await within('used', (tx) =>
        tx.$executeRawUnsafe(`DELETE FROM ${table} WHERE yard_id = 'used' AND id = '${id}'`),
      ).catch((caught: unknown) => caught);
      expect(refusalOf(error)).toEqual({ kind: 'reference', constraint });
    }
  });

  it('joins members to the accounts that have their e-mail, in either case', async () => {
    const account = await withoutYard(database.service, (tx) =>
      tx.account.create({ data: { email: 'ann@example.org', name: 'Ann' } }),
    );
    await within('joined', (tx) => saveYard(tx, smallYard('joined')));
    const members = await within('joined', (tx) =>
      tx.member.findMany({ where: { yardId: 'joined' }, orderBy: { position: 'asc' } }),
    );
    expect(members.map(({ id, accountId }) => [id, accountId])).toEqual([
      ['ann', account.id],
      ['ben', null],
    ]);
  });

  it('gives the highest version of a procedure, and keeps the others', async () => {
    const yard = smallYard('versions');
    const [patch] = yard.procedures;
    const next = { ...patch, version: 2, name: 'Patch, thinner' };
    await within('versions', async (tx) => {
      await saveYard(tx, yard);
      await saveProcedure(tx, 'versions', next);
    });
    expect(await within('versions', (tx) => loadProcedures(tx, 'versions'))).toEqual([next]);
    expect(
      await within('versions', (tx) => tx.procedure.count({ where: { yardId: 'versions' } })),
    ).toBe(2);
    const error: unknown = await within('versions', (tx) =>
      saveProcedure(tx, 'versions', next),
    ).catch((caught: unknown) => caught);
    expect(refusalOf(error)).toEqual({ kind: 'unique', constraint: 'procedure_pkey' });
  });
});

describe('saved tasks', () => {
  it('change only where the workload did', async () => {
    const yard = smallYard('tasks');
    const workload = makeWorkload(yard);
    await within('tasks', async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, 'tasks', workload);
    });
    const [first, second, ...others] = workload.tasks;
    const begun = {
      ...first,
      state: 'working' as const,
      startedAt: '2027-01-04T09:00:00Z',
      crew: ['ann'],
    };
    const changed = {
      ...workload,
      tasks: [begun, { ...second, workMinutes: 99, tools: [] }, ...others],
    };
    await within('tasks', (tx) => saveTasks(tx, 'tasks', changed));
    expect(await within('tasks', (tx) => loadWorkload(tx, 'tasks'))).toEqual(changed);
    const rows = await within('tasks', (tx) =>
      tx.task.findMany({ where: { yardId: 'tasks' }, orderBy: { position: 'asc' } }),
    );
    expect(rows.map((row) => row.revision)).toEqual([2, 2, 1, 1, 1, 1]);
  });

  it('go with the job that made them, unless somebody claimed one', async () => {
    const yard = smallYard('gone');
    const whole = makeWorkload(yard);
    const firstJob = makeWorkload({
      ...yard,
      boats: yard.boats.map((boat) => ({
        ...boat,
        refits: boat.refits.map((refit) => ({
          ...refit,
          parts: refit.parts.map((part) => ({ ...part, jobs: part.jobs.slice(0, 1) })),
        })),
      })),
    });
    expect(firstJob.tasks).toHaveLength(3);
    await within('gone', async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, 'gone', whole);
    });
    await within('gone', (tx) => saveTasks(tx, 'gone', firstJob));
    expect(await within('gone', (tx) => loadWorkload(tx, 'gone'))).toEqual(firstJob);

    await within('gone', (tx) =>
      tx.claim.create({ data: { yardId: 'gone', taskId: 'first.wet', memberId: 'ann' } }),
    );
    const none = { tasks: [], links: [], choices: [] };
    const error: unknown = await within('gone', (tx) => saveTasks(tx, 'gone', none)).catch(
      (caught: unknown) => caught,
    );
    expect(refusalOf(error)).toEqual({
      kind: 'reference',
      constraint: 'claim_yard_id_task_id_fkey',
    });
  });
});

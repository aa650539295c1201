import { randomUUID } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { describe, expect, it } from 'vitest';
import { asAccount, inYard, service, type Transaction } from '#persistence/client.ts';
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
  inYard(database.service, service(yardId), work);

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

  it('has its founder as a member and joins nobody by an e-mail', async () => {
    const [anns, bens] = [randomUUID(), randomUUID()];
    const emails = [
      [anns, 'ann@example.org'],
      [bens, 'ben@example.org'],
    ] as const;
    for (const [id, email] of emails) {
      await asAccount(database.service, id, (tx) =>
        tx.account.create({ data: { id, email, name: email } }),
      );
    }
    const yard = smallYard('joined');
    const people = yard.people.map((person) => ({ ...person, email: `${person.id}@example.org` }));
    const founder = { as: 'member', yardId: 'joined', accountId: bens, sees: 'all' } as const;
    await inYard(database.service, { ...founder, founder: 'ben' }, (tx) =>
      saveYard(tx, { ...yard, people }, { memberId: 'ben', accountId: bens }),
    );
    const members = await within('joined', (tx) =>
      tx.member.findMany({ where: { yardId: 'joined' }, orderBy: { position: 'asc' } }),
    );
    expect(members.map(({ id, accountId }) => [id, accountId])).toEqual([
      ['ann', null],
      ['ben', bens],
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

  it('are joined by links and choices that are written again only where they changed', async () => {
    const yard = wholeYard('links');
    const workload = makeWorkload(yard);
    await within('links', async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, 'links', workload);
    });
    const positions = (): Promise<Map<string, number>> =>
      within('links', async (tx) => {
        const links = await tx.taskLink.findMany({ where: { yardId: 'links' } });
        const choices = await tx.taskChoice.findMany({ where: { yardId: 'links' } });
        return new Map([...links, ...choices].map(({ id, position }) => [id, position]));
      });
    const before = await positions();
    // One that a branch names: the row that says so goes with the link, and has to come back.
    const [choice] = workload.choices;
    const [touched] = choice.branches.flatMap(({ links }) => links);
    expect(workload.links.length).toBeGreaterThan(1);
    const changed = {
      ...workload,
      links: workload.links.map((link) =>
        link.id === touched ? { ...link, opens: { kind: 'after' as const, minutes: 7 } } : link,
      ),
    };
    await within('links', (tx) => saveTasks(tx, 'links', changed));
    const stored = await within('links', (tx) => loadWorkload(tx, 'links'));
    const byId = (a: { id: string }, b: { id: string }): number => (a.id < b.id ? -1 : 1);
    expect([...stored.links].sort(byId)).toEqual([...changed.links].sort(byId));
    expect([...stored.choices].sort(byId)).toEqual([...changed.choices].sort(byId));
    const moved = [...(await positions())].filter(([id, at]) => before.get(id) !== at);
    expect(moved.map(([id]) => id).sort()).toEqual([choice.id, touched].sort());
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

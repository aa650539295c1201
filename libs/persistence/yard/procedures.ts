import { procedureSchema, type Procedure } from '#planning/yard/procedures.ts';
import type { Transaction } from '../client.ts';
import type { Prisma, Procedure as ProcedureRow } from '../generated/client.ts';
import { asJson, inOrder, insert, nothingLeft } from '../rows.ts';

/** Adds a version; an existing one is refused (`procedure_pkey`), since versions never change. */
export async function saveProcedure(
  tx: Transaction,
  yardId: string,
  procedure: Procedure,
): Promise<void> {
  const { id, version, name, steps, links, choices, ...rest } = procedure;
  nothingLeft(rest);
  await tx.procedure.create({
    data: { yardId, id, version, name, body: asJson({ steps, links, choices }) },
  });
  const none = {
    skillId: null,
    materialId: null,
    spaceId: null,
    toolId: null,
    stockId: null,
    barrierId: null,
    slotListId: null,
    fabricId: null,
  };
  const use = (
    key: keyof typeof none,
    ids: readonly (string | null)[],
  ): Prisma.ProcedureUseCreateManyInput[] =>
    [...new Set(ids)]
      .filter((used) => used !== null)
      .map((used) => ({ yardId, procedureId: id, version, ...none, [key]: used }));
  await insert(tx.procedureUse, [
    ...use(
      'skillId',
      steps.map((step) => step.skill),
    ),
    ...use(
      'materialId',
      steps.map((step) => step.material),
    ),
    ...use(
      'spaceId',
      steps.flatMap((step) => [step.space, step.move?.kind === 'space' ? step.move.space : null]),
    ),
    ...use(
      'toolId',
      steps.flatMap((step) => [...step.tools, ...step.holds].map((need) => need.tool)),
    ),
    ...use(
      'stockId',
      steps.flatMap((step) => step.consumes.map((share) => share.stock)),
    ),
    ...use(
      'barrierId',
      steps.map((step) => step.barrier?.barrier ?? null),
    ),
    ...use(
      'slotListId',
      steps.map((step) => step.slots),
    ),
    ...use(
      'fabricId',
      steps.flatMap(({ quantity }) =>
        quantity?.kind === 'laminate' || quantity?.kind === 'tabbing'
          ? quantity.plies.map((ply) => ply.fabric)
          : [],
      ),
    ),
  ]);
}

export const toProcedure = (row: ProcedureRow): Procedure =>
  procedureSchema.parse({
    ...(row.body as Prisma.JsonObject),
    id: row.id,
    version: row.version,
    name: row.name,
  });

/** The current version of each, in the order in which the procedures first came. */
export async function loadProcedures(tx: Transaction, yardId: string): Promise<Procedure[]> {
  const rows = await tx.procedure.findMany({ where: { yardId }, ...inOrder });
  const current = new Map<string, ProcedureRow>();
  for (const row of rows) {
    const known = current.get(row.id);
    if (known === undefined || row.version > known.version) current.set(row.id, row);
  }
  return [...current.values()].map(toProcedure);
}

/** The current version's number by procedure. */
export async function currentVersions(
  tx: Transaction,
  yardId: string,
): Promise<ReadonlyMap<string, number>> {
  const groups = await tx.procedure.groupBy({
    by: ['id'],
    where: { yardId },
    _max: { version: true },
  });
  return new Map(groups.map(({ id, _max }) => [id, _max.version ?? 1]));
}

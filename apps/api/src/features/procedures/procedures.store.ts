import { DomainError } from '#kernel/error.ts';
import { saveProcedure, toProcedure } from '#persistence/yard/procedures.ts';
import type { Tx } from '../../platform/database/database.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import type { Procedure } from './procedures.contract.ts';

export const insertProcedure = saveProcedure;

/** The current version of each, in the order in which these were added. */
export async function listProcedures(
  tx: Tx,
  yardId: string,
  page: PageRequest,
): Promise<Page<Procedure>> {
  const { where, ...rest } = pageArgs(page);
  const newest = await tx.procedure.groupBy({
    by: ['id'],
    where: { yardId },
    _max: { version: true },
  });
  const current = newest.map(({ id, _max }) => ({ id, version: _max.version ?? 1 }));
  const rows = await tx.procedure.findMany({ where: { yardId, ...where, OR: current }, ...rest });
  return toPage(rows, page, toProcedure);
}

/** The current version unless another is asked for. */
export async function findProcedure(
  tx: Tx,
  yardId: string,
  id: string,
  version?: number,
): Promise<Procedure> {
  const row = await tx.procedure.findFirst({
    where: { yardId, id, ...(version === undefined ? {} : { version }) },
    orderBy: { version: 'desc' },
  });
  if (!row) {
    const which = version === undefined ? '' : ` version ${String(version)} of`;
    throw new DomainError('record.missing', `There is no${which} procedure "${id}".`);
  }
  return toProcedure(row);
}

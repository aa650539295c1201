import { CONSUMABLE_RATES, consumablesOf, type ConsumableRate } from '#cure/batch/consumables.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Rows } from '../reading/rows.ts';
import type { SheetAmount } from '../sheet.ts';
import { cited } from './trust.ts';

/** The yard's own rates, in the place of the library's where it has any. */
const ratesOf = ({ consumables }: Yard): readonly ConsumableRate[] =>
  consumables.length === 0
    ? CONSUMABLE_RATES
    : consumables.map((rate): ConsumableRate => ({ ...rate, trust: 'sheet' }));

/** What a task's preparation of its part uses up. */
export function usesOf(task: Task, yard: Yard, rows: Rows): SheetAmount[] {
  const areaM2 = rows.parts.get(task.partId)?.part.areaM2 ?? 0;
  if (task.prepares.length === 0 || areaM2 === 0) return [];
  return consumablesOf(areaM2, task.prepares, ratesOf(yard)).map(
    ({ id, name, unit, amount, trust, source }) => ({
      id,
      name,
      amount,
      unit,
      // A rate of the yard's own needs no word of how far to trust it.
      source: trust === 'sheet' ? source : cited({ trust, source }),
    }),
  );
}

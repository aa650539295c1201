import type { PlanSheet } from '#planning/decode/sheet.ts';
import { isToPlan, restOf } from '#planning/workload/standing.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Price } from './price.ts';

/** One of the two plans: the work as it is or would be, and what the plan makes of it. */
export interface Planned {
  readonly workload: Workload;
  readonly sheet: Pick<PlanSheet, 'tasks' | 'boats' | 'shopping' | 'money'>;
}

/** Builder-minutes still to be done. */
const left = (task: Task): number => (isToPlan(task) ? restOf(task).workMinutes : 0);

/** Sums by key, in the order in which keys first come. */
class Ledger<T> {
  readonly #entries = new Map<string, { of: T; amount: number }>();

  add(key: string, of: T, amount: number): void {
    const known = this.#entries.get(key);
    if (known === undefined) this.#entries.set(key, { of, amount });
    else known.amount += amount;
  }

  /** To a hundredth: sums of binary fractions otherwise show it. What comes to nothing is left out. */
  differences(): (T & { amount: number })[] {
    return [...this.#entries.values()]
      .map(({ of, amount }) => ({ ...of, amount: Math.round(amount * 100) / 100 }))
      .filter(({ amount }) => amount !== 0);
  }
}

/** What the plan does: of a choice, the branch it takes. */
function plannedTasks({ workload, sheet }: Planned): Task[] {
  const planned = new Set(sheet.tasks.map(({ id }) => id));
  return workload.tasks.filter(({ id }) => planned.has(id));
}

function workOf(yard: Yard, without: Planned, changed: Planned): Price['work'] {
  const names = new Map(yard.skills.map(({ id, name }) => [id, name]));
  const ledger = new Ledger<Omit<Price['work'][number], 'minutes'>>();
  const count = (planned: Planned, sign: number): void => {
    for (const task of plannedTasks(planned)) {
      const { skill } = task;
      if (skill === null) continue;
      ledger.add(skill, { skill, name: names.get(skill) ?? skill }, sign * left(task));
    }
  };
  count(changed, 1);
  count(without, -1);
  return ledger.differences().map(({ amount, ...of }) => ({ ...of, minutes: amount }));
}

function materialsOf(yard: Yard, without: Planned, changed: Planned): Price['materials'] {
  const ledger = new Ledger<Omit<Price['materials'][number], 'amount'>>();
  const stocks = new Map(yard.stocks.map((stock) => [stock.id, stock]));
  const count = (planned: Planned, sign: number): void => {
    for (const { id, name, unit, kind, amount } of planned.sheet.shopping)
      ledger.add(`${kind}/${id}/${unit}`, { id, name, unit }, sign * amount);
    for (const { state, consumes } of plannedTasks(planned)) {
      if (state !== 'waiting') continue;
      for (const { stock: id, amount } of consumes) {
        const { name, unit } = stocks.get(id) ?? { name: id, unit: '' };
        ledger.add(`stock/${id}`, { id, name, unit }, sign * amount);
      }
    }
  };
  count(changed, 1);
  count(without, -1);
  return ledger.differences();
}

function boatsOf(without: Planned, changed: Planned): Price['boats'] {
  const before = new Map(without.sheet.boats.map((boat) => [boat.refitId, boat]));
  return changed.sheet.boats.flatMap(({ boatId, boat, refitId, promised, finish, lateMinutes }) => {
    const was = before.get(refitId);
    if (was === undefined) return [];
    return [
      {
        boatId,
        boat,
        refitId,
        without: was.finish.at,
        with: finish.at,
        minutes: Math.round((Date.parse(finish.at) - Date.parse(was.finish.at)) / 60_000),
        promised: promised?.at ?? null,
        lateWithout: Math.ceil(was.lateMinutes),
        lateWith: Math.ceil(lateMinutes),
      },
    ];
  });
}

/**
 * What a change costs: the plan with it less the plan without it, both made in the same way from the
 * same moment. `yard` is the yard with it.
 */
export function priceOf(yard: Yard, without: Planned, changed: Planned): Price {
  return {
    work: workOf(yard, without, changed),
    materials: materialsOf(yard, without, changed),
    cents: changed.sheet.money.total - without.sheet.money.total,
    boats: boatsOf(without, changed),
  };
}

import { weekStart } from '#calendar/local-date.ts';
import type { SheetShopping, SheetTask, When } from './sheet.ts';

type Task = Pick<SheetTask, 'state' | 'start' | 'finish' | 'mix' | 'consumables'>;

/** Days that a material keeps, where its sheet says so. */
type ShelfLife = (material: string) => number | null;

interface Use {
  readonly id: string;
  readonly name: string;
  readonly kind: SheetShopping['kind'];
  readonly unit: string;
  readonly amount: number;
  readonly shelfLifeDays: number | null;
}

function usesOf({ mix, consumables }: Task, shelfLife: ShelfLife): Use[] {
  const rest = consumables.map(({ id, name, unit, amount }): Use => ({
    id,
    name,
    kind: 'consumable',
    unit,
    amount,
    shelfLifeDays: null,
  }));
  if (mix === null) return rest;
  const { materialId: id, material: name, resinGrams, hardenerGrams, fabrics } = mix;
  const shelfLifeDays = shelfLife(id);
  const poured = (kind: 'resin' | 'hardener', grams: number | null, what: string): Use[] =>
    grams === null ? [] : [{ id, name: what, kind, unit: 'g', amount: grams, shelfLifeDays }];
  return [
    ...poured('resin', resinGrams, name),
    ...poured('hardener', hardenerGrams, `Hardener of ${name}`),
    ...fabrics.map((fabric): Use => ({
      id: fabric.id,
      name: fabric.name,
      kind: 'fabric',
      unit: 'm²',
      amount: fabric.squareMetres,
      shelfLifeDays: null,
    })),
    ...rest,
  ];
}

const ORDER: readonly SheetShopping['kind'][] = ['resin', 'hardener', 'fabric', 'consumable'];

/** To a hundredth: sums of binary fractions otherwise show it. */
const clean = (row: SheetShopping): SheetShopping => ({
  ...row,
  amount: Math.round(row.amount * 100) / 100,
});

const later = (a: When, b: When): When => (a.at < b.at ? b : a);

/**
 * What the tasks that have not begun need, by the week in which they begin: resin, hardener,
 * fabric, consumables, each by name. `tasks` by start.
 */
export function shoppingOf(tasks: readonly Task[], shelfLife: ShelfLife): SheetShopping[] {
  const found = new Map<string, SheetShopping>();
  for (const task of tasks) {
    if (task.state !== 'waiting') continue;
    const week = weekStart(task.start.local.slice(0, 10));
    for (const { amount, ...use } of usesOf(task, shelfLife)) {
      const key = `${week}/${use.kind}/${use.id}/${use.unit}`;
      const known = found.get(key);
      found.set(key, {
        ...use,
        week,
        amount: (known?.amount ?? 0) + amount,
        firstUse: known?.firstUse ?? task.start,
        lastUse: known === undefined ? task.finish : later(known.lastUse, task.finish),
      });
    }
  }
  const place = ({ week, kind, name }: SheetShopping): string =>
    `${week}/${String(ORDER.indexOf(kind))}/${name}`;
  return [...found.values()].map(clean).sort((a, b) => (place(a) < place(b) ? -1 : 1));
}

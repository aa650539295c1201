import { addDays } from '#calendar/local-date.ts';
import { inWords } from '../reading/moments.ts';
import type { PlanSheet, SheetShopping } from '../sheet.ts';

/** What nobody can buy a part of. */
const WHOLE: ReadonlySet<string> = new Set(['piece', 'sheet']);

/** From a kilogram on in kilograms; whole pieces, so many at the least. */
function amountWords({ amount, unit }: SheetShopping): string {
  if (WHOLE.has(unit)) {
    const count = Math.ceil(amount);
    return `${String(count)} ${unit}${count === 1 ? '' : 's'}`;
  }
  if (unit === 'g' && amount >= 1000) return `${(amount / 1000).toFixed(2)} kg`;
  return `${String(Number(amount.toFixed(2)))} ${unit}`;
}

/** What keeps only so long has to be young enough when the last of it is used. */
function shelfWords({ shelfLifeDays, lastUse }: SheetShopping): string {
  if (shelfLifeDays === null) return '';
  const made = addDays(lastUse.local.slice(0, 10), -Math.floor(shelfLifeDays));
  return `, keeps ${String(shelfLifeDays)} days: made ${made} or later`;
}

/** What is first used from one date to another, week by week. */
export function shoppingLines(
  { shopping, timeZone }: PlanSheet,
  from: string,
  until: string,
): string[] {
  const rows = shopping.filter(({ week }) => week >= from && week < until);
  let week = '';
  return rows.flatMap((row) => {
    const head = row.week === week ? [] : [`  for the week of ${row.week}`];
    week = row.week;
    return [
      ...head,
      `    ${row.name}: ${amountWords(row)}, from ${inWords(row.firstUse, timeZone)}${shelfWords(row)}`,
    ];
  });
}

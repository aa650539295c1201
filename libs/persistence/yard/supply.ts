import { z } from 'zod';
import {
  absenceSchema,
  hoursSchema,
  type Absence,
  type Hours,
  type Stock,
  type Tool,
} from '#planning/yard/spaces.ts';
import type { Transaction } from '../client.ts';
import type { Prisma, Stock as StockRow, Tool as ToolRow } from '../generated/client.ts';
import { asJson, asJsonOrNull, inOrder, insert, nothingLeft, utcOf } from '../rows.ts';

const absenceList = z.array(absenceSchema);
const hoursList = z.array(hoursSchema).nullable();

export const absenceColumn = (absences: readonly Absence[]): Prisma.InputJsonValue =>
  asJson(absences.map((one) => ({ ...one, from: utcOf(one.from), to: utcOf(one.to) })));
export const hoursColumn = (hours: readonly Hours[] | null) => asJsonOrNull(hours);
export const toAbsences = (column: Prisma.JsonValue): Absence[] => absenceList.parse(column);
export const toHours = (column: Prisma.JsonValue): Hours[] | null => hoursList.parse(column);

export function toolRow(
  yardId: string,
  { id, name, count, away, hours, ...rest }: Tool,
): Prisma.ToolCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, name, count, away: absenceColumn(away), hours: hoursColumn(hours) };
}

export const toTool = ({ id, name, count, away, hours }: ToolRow): Tool => ({
  id,
  name,
  count,
  away: toAbsences(away),
  hours: toHours(hours),
});

export async function saveTools(
  tx: Transaction,
  yardId: string,
  tools: readonly Tool[],
): Promise<void> {
  await insert(
    tx.tool,
    tools.map((tool) => toolRow(yardId, tool)),
  );
}

export async function loadTools(tx: Transaction, yardId: string): Promise<Tool[]> {
  const rows = await tx.tool.findMany({ where: { yardId }, ...inOrder });
  return rows.map(toTool);
}

export function stockRow(
  yardId: string,
  { id, name, unit, total, ...rest }: Stock,
): Prisma.StockCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, name, unit, total };
}

export const toStock = ({ id, name, unit, total }: StockRow): Stock => ({ id, name, unit, total });

export async function saveStocks(
  tx: Transaction,
  yardId: string,
  stocks: readonly Stock[],
): Promise<void> {
  await insert(
    tx.stock,
    stocks.map((stock) => stockRow(yardId, stock)),
  );
}

export async function loadStocks(tx: Transaction, yardId: string): Promise<Stock[]> {
  const rows = await tx.stock.findMany({ where: { yardId }, ...inOrder });
  return rows.map(toStock);
}

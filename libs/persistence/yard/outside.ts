import { slotListSchema, type Delivery, type SlotList } from '#planning/yard/outside.ts';
import type { Transaction } from '../client.ts';
import type {
  Delivery as DeliveryRow,
  Prisma,
  SlotList as SlotListRow,
} from '../generated/client.ts';
import { asJson, inOrder, insert, isoOf, nothingLeft, utcOf } from '../rows.ts';

export function slotListRow(
  yardId: string,
  { id, name, kind, slots, ...rest }: SlotList,
): Prisma.SlotListCreateManyInput {
  nothingLeft(rest);
  const inUtc = slots.map((slot) => ({ ...slot, from: utcOf(slot.from), to: utcOf(slot.to) }));
  return { yardId, id, name, kind, slots: asJson(inUtc) };
}

export const toSlotList = ({ id, name, kind, slots }: SlotListRow): SlotList =>
  slotListSchema.parse({ id, name, kind, slots } satisfies Record<keyof SlotList, unknown>);

export async function saveSlotLists(
  tx: Transaction,
  yardId: string,
  lists: readonly SlotList[],
): Promise<void> {
  await insert(
    tx.slotList,
    lists.map((list) => slotListRow(yardId, list)),
  );
}

export async function loadSlotLists(tx: Transaction, yardId: string): Promise<SlotList[]> {
  const rows = await tx.slotList.findMany({ where: { yardId }, ...inOrder });
  return rows.map(toSlotList);
}

export function deliveryRow(
  yardId: string,
  { id, name, expected, ...rest }: Delivery,
): Prisma.DeliveryCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, name, expected: new Date(expected) };
}

export const toDelivery = ({ id, name, expected }: DeliveryRow): Delivery => ({
  id,
  name,
  expected: isoOf(expected),
});

export async function saveDeliveries(
  tx: Transaction,
  yardId: string,
  deliveries: readonly Delivery[],
): Promise<void> {
  await insert(
    tx.delivery,
    deliveries.map((delivery) => deliveryRow(yardId, delivery)),
  );
}

export async function loadDeliveries(tx: Transaction, yardId: string): Promise<Delivery[]> {
  const rows = await tx.delivery.findMany({ where: { yardId }, ...inOrder });
  return rows.map(toDelivery);
}

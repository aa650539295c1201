import { z } from 'zod';
import { DomainError } from '#kernel/error.ts';
import { consumableSchema, type Consumable } from '#planning/yard/procedures.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Joined } from '../access/join.ts';
import type { Transaction } from '../client.ts';
import { asJson, isoOf, nothingLeft } from '../rows.ts';
import { loadBarriers, saveBarriers } from './barriers.ts';
import { loadBoats, saveBoats } from './boats.ts';
import { loadFabrics, saveFabrics } from './fabrics.ts';
import { loadMaterials, saveMaterials } from './materials.ts';
import { loadObservations, loadReadings, saveObservations, saveReadings } from './observed.ts';
import { loadDeliveries, loadSlotLists, saveDeliveries, saveSlotLists } from './outside.ts';
import { loadPeople, loadSkills, saveMembers, saveSkills } from './people.ts';
import { loadProcedures, saveProcedure } from './procedures.ts';
import { loadOutdoor, loadSpaces, saveOutdoor, saveSpaces } from './spaces.ts';
import { loadStocks, loadTools, saveStocks, saveTools } from './supply.ts';

/**
 * Stores a validated yard that is not there yet. Nobody but the founder has an account in it.
 * Tasks are another matter: see `saveTasks`.
 */
export async function saveYard(
  tx: Transaction,
  { format: _format, version: _version, ...yard }: Yard,
  founder?: Joined,
): Promise<void> {
  const {
    id,
    name,
    timeZone,
    planFrom,
    horizonDays,
    currency,
    moneyTolerance,
    cupShare,
    powerWatts,
    consumables,
    outdoor,
    skills,
    people,
    spaces,
    tools,
    stocks,
    barriers,
    slotLists,
    deliveries,
    materials,
    fabrics,
    readings,
    observations,
    procedures,
    boats,
    ...rest
  } = yard;
  nothingLeft(rest);
  const head = { id, name, timeZone, planFrom: new Date(planFrom), horizonDays };
  const batches = { cupShare, powerWatts, consumables: asJson(consumables) };
  await tx.yard.create({ data: { ...head, currency, moneyTolerance, ...batches } });
  if (outdoor !== null) await saveOutdoor(tx, id, outdoor);
  await saveSkills(tx, id, skills);
  await saveMembers(tx, id, people, founder);
  await saveSpaces(tx, id, spaces);
  await saveTools(tx, id, tools);
  await saveStocks(tx, id, stocks);
  await saveBarriers(tx, id, barriers);
  await saveSlotLists(tx, id, slotLists);
  await saveDeliveries(tx, id, deliveries);
  await saveMaterials(tx, id, materials, null);
  await saveFabrics(tx, id, fabrics);
  await saveReadings(tx, id, readings);
  await saveObservations(tx, id, observations);
  for (const procedure of procedures) await saveProcedure(tx, id, procedure);
  await saveBoats(tx, id, boats);
}

const consumableList = z.array(consumableSchema);
export const toConsumables = (column: unknown): Consumable[] => consumableList.parse(column);

/** The whole yard; instants come back in UTC. Throws `record.missing`. */
export async function loadYard(tx: Transaction, yardId: string): Promise<Yard> {
  const row = await tx.yard.findUnique({ where: { id: yardId } });
  if (row === null) throw new DomainError('record.missing', `There is no yard "${yardId}"`);
  return {
    format: 'curewright-yard',
    version: 1,
    id: row.id,
    name: row.name,
    timeZone: row.timeZone,
    planFrom: isoOf(row.planFrom),
    horizonDays: row.horizonDays,
    currency: row.currency,
    moneyTolerance: row.moneyTolerance,
    cupShare: row.cupShare,
    powerWatts: row.powerWatts,
    consumables: toConsumables(row.consumables),
    outdoor: await loadOutdoor(tx, yardId),
    skills: await loadSkills(tx, yardId),
    people: await loadPeople(tx, yardId),
    spaces: await loadSpaces(tx, yardId),
    tools: await loadTools(tx, yardId),
    stocks: await loadStocks(tx, yardId),
    barriers: await loadBarriers(tx, yardId),
    slotLists: await loadSlotLists(tx, yardId),
    deliveries: await loadDeliveries(tx, yardId),
    materials: await loadMaterials(tx, yardId),
    fabrics: await loadFabrics(tx, yardId),
    readings: await loadReadings(tx, yardId),
    observations: await loadObservations(tx, yardId),
    procedures: await loadProcedures(tx, yardId),
    boats: await loadBoats(tx, yardId),
  };
}

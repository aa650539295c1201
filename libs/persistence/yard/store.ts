import { DomainError } from '#kernel/error.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Transaction } from '../client.ts';
import { isoOf, nothingLeft } from '../rows.ts';
import { loadBoats, saveBoats } from './boats.ts';
import { loadMaterials, saveMaterials } from './materials.ts';
import { loadPeople, loadSkills, saveMembers, saveSkills } from './people.ts';
import { loadProcedures, saveProcedure } from './procedures.ts';
import {
  loadOutdoor,
  loadSpaces,
  loadTools,
  saveOutdoor,
  saveSpaces,
  saveTools,
} from './spaces.ts';

/**
 * Stores a validated yard that is not there yet. Members are joined to accounts that exist;
 * none is made. Tasks are another matter: see `saveTasks`.
 */
export async function saveYard(
  tx: Transaction,
  { format: _format, version: _version, ...yard }: Yard,
): Promise<void> {
  const {
    id,
    name,
    timeZone,
    planFrom,
    horizonDays,
    outdoor,
    skills,
    people,
    spaces,
    tools,
    materials,
    procedures,
    boats,
    ...rest
  } = yard;
  nothingLeft(rest);
  await tx.yard.create({ data: { id, name, timeZone, planFrom: new Date(planFrom), horizonDays } });
  if (outdoor !== null) await saveOutdoor(tx, id, outdoor);
  await saveSkills(tx, id, skills);
  await saveMembers(tx, id, people);
  await saveSpaces(tx, id, spaces);
  await saveTools(tx, id, tools);
  await saveMaterials(tx, id, materials);
  for (const procedure of procedures) await saveProcedure(tx, id, procedure);
  await saveBoats(tx, id, boats);
}

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
    outdoor: await loadOutdoor(tx, yardId),
    skills: await loadSkills(tx, yardId),
    people: await loadPeople(tx, yardId),
    spaces: await loadSpaces(tx, yardId),
    tools: await loadTools(tx, yardId),
    materials: await loadMaterials(tx, yardId),
    procedures: await loadProcedures(tx, yardId),
    boats: await loadBoats(tx, yardId),
  };
}

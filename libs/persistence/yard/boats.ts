import type { Boat, Part, Refit } from '#planning/yard/boats.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import { inOrder, insert, isoOf, nothingLeft } from '../rows.ts';
import { jobDetails, saveJobs, toJob } from './jobs.ts';
import { saveLayers, toLayer } from './layers.ts';

export async function saveBoats(
  tx: Transaction,
  yardId: string,
  boats: readonly Boat[],
): Promise<void> {
  await insert(
    tx.boat,
    boats.map(({ id, name, owner, refits: _r, ...rest }): Prisma.BoatCreateManyInput => {
      nothingLeft(rest);
      return { yardId, id, name, ownerId: owner };
    }),
  );
  const refits = boats.flatMap((boat) =>
    boat.refits.map((refit) => refitRow(yardId, boat.id, refit)),
  );
  await insert(tx.refit, refits);
  const all = boats.flatMap((boat) => boat.refits);
  await insert(
    tx.part,
    all.flatMap((refit) => refit.parts.map((part) => partRow(yardId, refit.id, part))),
  );
  const parts = all.flatMap((refit) => refit.parts);
  await saveLayers(tx, yardId, parts);
  await saveJobs(tx, yardId, parts);
}

export function refitRow(
  yardId: string,
  boatId: string,
  { id, name, release, promised, handovers, weight, parts: _p, ...rest }: Refit,
): Prisma.RefitCreateManyInput {
  nothingLeft(rest);
  return {
    yardId,
    id,
    boatId,
    name,
    release: new Date(release),
    promised: promised === null ? null : new Date(promised),
    handovers: handovers.map((at) => new Date(at)),
    weight,
  };
}

export function partRow(
  yardId: string,
  refitId: string,
  { id, name, space, areaM2, edgeM, jointM, layers: _l, jobs: _j, ...rest }: Part,
): Prisma.PartCreateManyInput {
  nothingLeft(rest);
  return { yardId, id, refitId, name, spaceId: space, areaM2, edgeM, jointM };
}

export const partDetails = {
  layers: inOrder,
  jobs: { ...inOrder, include: jobDetails },
} as const satisfies Prisma.PartInclude;
export const refitDetails = {
  parts: { ...inOrder, include: partDetails },
} as const satisfies Prisma.RefitInclude;
export const boatDetails = {
  refits: { ...inOrder, include: refitDetails },
} as const satisfies Prisma.BoatInclude;

export type PartRow = Prisma.PartGetPayload<{ include: typeof partDetails }>;
export type RefitRow = Prisma.RefitGetPayload<{ include: typeof refitDetails }>;
export type BoatRow = Prisma.BoatGetPayload<{ include: typeof boatDetails }>;

const toPart = (row: PartRow): Part => ({
  id: row.id,
  name: row.name,
  space: row.spaceId,
  areaM2: row.areaM2,
  edgeM: row.edgeM,
  jointM: row.jointM,
  layers: row.layers.map(toLayer),
  jobs: row.jobs.map(toJob),
});

const toRefit = (row: RefitRow): Refit => ({
  id: row.id,
  name: row.name,
  release: isoOf(row.release),
  promised: row.promised === null ? null : isoOf(row.promised),
  handovers: row.handovers.map(isoOf),
  weight: row.weight,
  parts: row.parts.map(toPart),
});

const toBoat = (row: BoatRow): Boat => ({
  id: row.id,
  name: row.name,
  owner: row.ownerId,
  refits: row.refits.map(toRefit),
});

export async function loadBoats(tx: Transaction, yardId: string): Promise<Boat[]> {
  const rows = await tx.boat.findMany({ where: { yardId }, ...inOrder, include: boatDetails });
  return rows.map(toBoat);
}

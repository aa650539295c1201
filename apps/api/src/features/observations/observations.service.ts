import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { observationRow, toObservation } from '#persistence/yard/observed.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { observedMaterials } from '#planning/compile/observed/observed.ts';
import { frameOf } from '#planning/compile/frame/time.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { type Page, pageArgs, type PageRequest, toPage } from '../../platform/paging/page.ts';
import { assertObservation } from '../soundness/observed.service.ts';
import type {
  MaterialCalibration,
  Observation,
  ObservationInput,
  ObservationsFilter,
} from './observations.contract.ts';

/** What builders found on films and in cups, and what it makes of a material's times. */
@Injectable()
export class ObservationsService {
  constructor(private readonly database: Database) {}

  list(
    viewer: Viewer,
    { material }: ObservationsFilter,
    page: PageRequest,
  ): Promise<Page<Observation>> {
    const { where, ...rest } = pageArgs(page);
    const of = material === undefined ? {} : { materialId: material };
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.observation.findMany({
        where: { yardId: viewer.yardId, ...of, ...where },
        ...rest,
      });
      return toPage(rows, page, toObservation);
    });
  }

  get(viewer: Viewer, id: string): Promise<Observation> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer.yardId, id));
  }

  add(viewer: Viewer, input: ObservationInput): Promise<Observation> {
    const { yardId } = viewer;
    const observation = { ...input, id: input.id ?? `observation-${crypto.randomUUID()}` };
    return this.database.inYard(viewer, async (tx) => {
      await assertObservation(tx, yardId, observation);
      await tx.observation.create({ data: observationRow(yardId, observation) });
      await appendEvent(tx, viewer, 'observation-added', 'material', observation.material, {
        observation: observation.id,
      });
      return find(tx, yardId, observation.id);
    });
  }

  /** Returns what was taken away. */
  remove(viewer: Viewer, id: string): Promise<Observation> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const observation = await find(tx, yardId, id);
      await tx.observation.deleteMany({ where: { yardId, id } });
      await appendEvent(tx, viewer, 'observation-removed', 'material', observation.material, {
        observation: id,
      });
      return observation;
    });
  }

  calibration(viewer: Viewer, materialId: string): Promise<MaterialCalibration> {
    return this.database.inYard(viewer, async (tx) => {
      const yard = await loadYard(tx, viewer.yardId);
      const { calibrations, massFits } = observedMaterials(
        yard,
        frameOf(yard, undefined, undefined),
      );
      const own = calibrations.get(materialId);
      if (!own) throw new DomainError('record.missing', `There is no material "${materialId}".`);
      const milestones = own.map(({ milestone, factor, spread, prior, evidence }) => ({
        milestone,
        factor,
        spread,
        prior: { ...prior },
        evidence: evidence.map(({ finding, flag, words }) => ({
          observationId: finding.id,
          found: finding.found,
          age: finding.age,
          flag,
          words,
        })),
      }));
      const used = new Set(
        milestones.flatMap(({ evidence }) => evidence.map((one) => one.observationId)),
      );
      const unused = yard.observations
        .filter(({ id, material }) => material === materialId && !used.has(id))
        .map(({ id }) => id);
      const fit = massFits.get(materialId);
      return { materialId, milestones, massPower: fit ? { ...fit } : null, unused };
    });
  }
}

async function find(tx: Tx, yardId: string, id: string): Promise<Observation> {
  const row = await tx.observation.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no observation "${id}".`);
  return toObservation(row);
}

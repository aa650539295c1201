import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { phoneMoment, wholeMinute, wholeMinutesLag } from '#live/life/phone.ts';
import { type Film, observationsOf } from '#live/reports/tack-test.ts';
import { isoOf } from '#persistence/rows.ts';
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
  TackTested,
  TackTestInput,
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

  add(viewer: Viewer, { sentAt, ...input }: ObservationInput): Promise<Observation> {
    const lag = wholeMinutesLag(sentAt, new Date());
    const observation = {
      ...input,
      id: input.id ?? `observation-${crypto.randomUUID()}`,
      at: isoOf(new Date(Date.parse(input.at) + lag)),
    };
    return this.database.inYard(viewer, async (tx) => {
      await addOne(tx, viewer, observation);
      return find(tx, viewer.yardId, observation.id);
    });
  }

  /** Of the film that a task has left: its material's times, and every window by them, are reckoned anew. */
  tackTest(viewer: Viewer, taskId: string, input: TackTestInput): Promise<TackTested> {
    const at = wholeMinute(phoneMoment(input, new Date()));
    const id = `tack-test-${crypto.randomUUID()}`;
    return this.database.inYard(viewer, async (tx) => ({
      items: await this.tackTestIn(tx, viewer, taskId, input, at, id),
    }));
  }

  /** The same in the caller's transaction; `at`: a whole minute of the service's clock. */
  async tackTestIn(
    tx: Tx,
    viewer: Viewer,
    taskId: string,
    test: Pick<TackTestInput, 'found' | 'note'>,
    at: string,
    id: string,
  ): Promise<Observation[]> {
    const film = await filmOf(tx, viewer.yardId, taskId);
    const found = observationsOf(test, film, at, id);
    for (const observation of found) await addOne(tx, viewer, observation);
    return found;
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

async function addOne(tx: Tx, viewer: Viewer, observation: Observation): Promise<void> {
  const { yardId } = viewer;
  await assertObservation(tx, yardId, observation);
  await tx.observation.create({ data: observationRow(yardId, observation) });
  await appendEvent(tx, viewer, 'observation-added', 'material', observation.material, {
    observation: observation.id,
  });
}

/** What a done task has left on its part. */
async function filmOf(tx: Tx, yardId: string, taskId: string): Promise<Film> {
  const task = await tx.task.findUnique({ where: { yardId_id: { yardId, id: taskId } } });
  if (!task) throw new DomainError('record.missing', `There is no task "${taskId}".`);
  const { materialId, finishedAt, spaceId, name, state } = task;
  const isLaid = state === 'done' || state === 'redo';
  if (materialId !== null && finishedAt !== null && isLaid) {
    return { material: materialId, space: spaceId, laidAt: isoOf(finishedAt) };
  }
  const message =
    materialId === null
      ? `"${name}" leaves no film`
      : `"${name}" is ${state}: its film is not laid`;
  throw new DomainError('work.film', message);
}

async function find(tx: Tx, yardId: string, id: string): Promise<Observation> {
  const row = await tx.observation.findUnique({ where: { yardId_id: { yardId, id } } });
  if (!row) throw new DomainError('record.missing', `There is no observation "${id}".`);
  return toObservation(row);
}

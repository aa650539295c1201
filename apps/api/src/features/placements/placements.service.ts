import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { loadPlan, type StoredPlan } from '#persistence/plan/store.ts';
import { usualStart } from '#persistence/run/usual-start.ts';
import { tryPlacement } from '#planning/decode/placing/try-placement.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import { PlansService } from '../plans/plans.service.ts';
import type { PlacementInput, TaskOfPlan, TriedPlacement } from './placements.contract.ts';

/** A hand that drags a task asks many times about one plan; each kept one holds its whole problem. */
const PLANS_KEPT = 4;

/** Tasks put elsewhere by hand, judged by what is stored with the plan, which never changes. */
@Injectable()
export class PlacementsService {
  /** By yard and plan, the one asked about last at the end. */
  readonly #known = new Map<string, StoredPlan>();

  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
    private readonly plans: PlansService,
  ) {}

  /** As the plan has it; a builder sees the published plan only. */
  async get(viewer: Viewer, id: string, taskId: string): Promise<TaskOfPlan> {
    const { id: planId, publishedAt, tasks, caution } = await this.plans.get(viewer, id);
    const task = tasks.find((one) => one.id === taskId);
    if (task === undefined) throw missingTask(taskId);
    return { planId, publishedAt, task, caution };
  }

  async tryPlacement(
    viewer: Viewer,
    planId: string,
    taskId: string,
    { start, crew }: PlacementInput,
  ): Promise<TriedPlacement> {
    const { stored, hasBegun, now } = await this.database.inYard(viewer, async (tx) => {
      const { lives } = await this.states.at(tx, viewer.yardId);
      const state = lives.get(taskId)?.state ?? 'waiting';
      return {
        stored: await this.#stored(tx, viewer.yardId, planId),
        hasBegun: state !== 'waiting',
        now: await usualStart(tx, viewer.yardId),
      };
    });
    const { problem, map, result } = stored;
    const { plan } = result;
    if (plan === null) throw new Error(`The plan ${planId} is stored without its placements`);
    assertKnown(map.people, crew ?? []);
    const tried = tryPlacement({
      problem,
      plan,
      map,
      task: taskId,
      start,
      crew,
      now: now && now.toISOString(),
      hasBegun,
    });
    if (tried === null) throw missingTask(taskId);
    const { task, segments, crew: people, against, effects, ...found } = tried;
    return {
      planId,
      taskId: task,
      ...found,
      segments: [...segments],
      crew: [...people],
      against: against.map(({ tasks, ...rest }) => ({ ...rest, taskIds: [...tasks] })),
      effects: [...effects],
    };
  }

  async #stored(tx: Tx, yardId: string, planId: string): Promise<StoredPlan> {
    const key = `${yardId} ${planId}`;
    const known = this.#known.get(key);
    const missing = `There is no plan "${planId}".`;
    if (known === undefined && !isUuid(planId)) throw new DomainError('record.missing', missing);
    const stored = known ?? (await loadPlan(tx, yardId, planId));
    this.#known.delete(key);
    this.#known.set(key, stored);
    const [oldest] = this.#known.keys();
    if (this.#known.size > PLANS_KEPT) this.#known.delete(oldest);
    return stored;
  }
}

const missingTask = (taskId: string): DomainError =>
  new DomainError('record.missing', `The plan does not have the task "${taskId}".`);

/** Whoever came to the yard after the plan was made cannot be tried in it. */
function assertKnown(people: readonly string[], crew: readonly string[]): void {
  const faults = crew.flatMap((person, k) =>
    people.includes(person)
      ? []
      : [
          fault('claim.crew', `crew[${String(k)}]`, `the plan knows no builder "${person}"`, {
            value: person,
            cure: 'Name somebody who was a builder of the yard when the plan was made, or plan again.',
          }),
        ],
  );
  if (faults.length > 0) throw new DomainError('claim.crew', faults[0].message, { faults });
}

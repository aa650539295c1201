import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type {
  MixSheets,
  MixSheetsQuery,
  PlanShopping,
  TaskMixSheet,
} from './mix-sheets.contract.ts';
import type { Plan } from './plans.contract.ts';
import { closingOf } from './closing.ts';
import { PlansService } from './plans.service.ts';

/**
 * What to weigh, and what to buy, as it was worked out and kept with a plan. Where an `id` may be
 * null, null means the published plan.
 */
@Injectable()
export class MixSheetsService {
  constructor(private readonly plans: PlansService) {}

  async list(viewer: Viewer, id: string | null, { day }: MixSheetsQuery): Promise<MixSheets> {
    const plan = await this.plans.get(viewer, id);
    const items = plan.tasks
      .filter(
        ({ mix, start }) => mix !== null && (day === undefined || start.local.startsWith(day)),
      )
      .map((task) => sheetOf(plan, task));
    return { planId: plan.id, day: day ?? null, items };
  }

  async ofTask(viewer: Viewer, id: string | null, taskId: string): Promise<TaskMixSheet> {
    const plan = await this.plans.get(viewer, id);
    const task = plan.tasks.find((one) => one.id === taskId);
    if (!task)
      throw new DomainError('record.missing', `The plan does not have the task "${taskId}".`);
    return sheetOf(plan, task);
  }

  async shopping(viewer: Viewer, id: string | null): Promise<PlanShopping> {
    const { id: planId, shopping } = await this.plans.get(viewer, id);
    return { planId, items: shopping };
  }
}

function sheetOf({ id: planId, caution, tasks }: Plan, task: Plan['tasks'][number]): TaskMixSheet {
  const { id: taskId, name, boat, part, spaceId, space, start, finish, crew } = task;
  const { mix, bond, consumables, film, warnings, cautions } = task;
  const closes = closingOf(tasks, taskId);
  return {
    ...{ planId, taskId, task: name, boat, part, spaceId, space, start, finish, closes, crew },
    ...{ mix, bond, consumables, film, warnings, cautions, caution },
  };
}

import type { TaskWindow } from '#planning/decode/ready/windows.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { TaskLife } from '../life/life.ts';

/** What the feeds of work are made of: the yard as it is at one event of its log. */
export interface WorkGround {
  readonly yard: Yard;
  readonly workload: Workload;
  readonly sheet: PlanSheet | null;
  readonly lives: ReadonlyMap<string, TaskLife>;
  /** Of films that were really laid, before work that waits for them. */
  readonly windows: readonly TaskWindow[];
}

import type { PlanSheet, When } from '../sheet.ts';
import type { Briefing } from '../briefing/briefing.ts';
import { isInOneGo, type Task, type Workload } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Rows } from '../reading/rows.ts';
import type { StillOpen } from './still-open.ts';

/** What is asked about: the work as it is at a moment. */
export interface StandingInput {
  readonly yard: Yard;
  readonly workload: Workload;
  /** Of the published plan. */
  readonly sheet: PlanSheet | null;
  /** ISO; to the minute. */
  readonly now: string;
  /** Windows that were given up and have not shut: the work counts as if they had where it is left out. */
  readonly stillOpen?: readonly StillOpen[] | undefined;
}

/** A task that is listed: waiting, or put aside. */
interface Listed {
  readonly taskId: string;
  readonly name: string;
  readonly partId: string;
  readonly part: string;
  readonly boatId: string;
  readonly boat: string;
  readonly refitId: string;
  readonly spaceId: string;
  readonly space: string;
  /** Null of a hold point: somebody is told the word. */
  readonly skill: string | null;
  readonly minLevel: number;
  readonly crewMin: number;
  readonly crewMax: number;
  /** It cannot be put aside half done. */
  readonly inOneGo: boolean;
  /** Of what was put aside, the rest. */
  readonly workMinutes: number;
  readonly isPaused: boolean;
  /** When the boats need it begun at the latest, and what says so: a window, the foreman, the plan. */
  readonly neededBy: When | null;
  readonly because: string | null;
  /** What else is to be known before it is taken up, in sentences. */
  readonly notes: readonly string[];
}

/** A task that a builder may take up now. */
export interface ReadyTask extends Listed, Briefing {
  readonly isReady: true;
  /** The window shuts then: the task has to be over. Null if nothing presses. */
  readonly closes: When | null;
  /** Minutes until then. */
  readonly openMinutes: number | null;
  /** To be over in time with the largest crew at the nominal rate. */
  readonly startBy: When | null;
}

/** A task that may not begin yet, and why. */
export interface WaitingTask extends Listed {
  readonly isReady: false;
  readonly why: string;
  /** When that is over, where it is known. */
  readonly opens: When | null;
}

export interface ReadyList {
  readonly ready: readonly ReadyTask[];
  readonly waiting: readonly WaitingTask[];
}

/** What of a listed task hangs on no moment. */
export function listedOf(
  task: Task,
  rest: Task,
  rows: Rows,
): Omit<Listed, 'neededBy' | 'because' | 'notes'> {
  const home = rows.parts.get(task.partId);
  return {
    taskId: task.id,
    name: task.name,
    partId: task.partId,
    part: home?.part.name ?? task.partId,
    boatId: home?.boat.id ?? '',
    boat: home?.boat.name ?? '',
    refitId: task.refitId,
    spaceId: task.space,
    space: rows.spaceName(task.space),
    skill: task.skill,
    minLevel: task.minLevel,
    crewMin: task.crewMin,
    crewMax: task.crewMax,
    inOneGo: isInOneGo(task),
    workMinutes: rest.workMinutes,
    isPaused: task.state === 'paused',
  };
}

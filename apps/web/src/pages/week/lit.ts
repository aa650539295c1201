import { computed, signal } from '@preact/signals';
import type { Boat } from './model.ts';

/** A sentence of a boat's binding chain. */
interface LitStep {
  readonly refitId: string;
  readonly step: number;
}

/** The task that somebody points at, or has the focus on. */
export const pointedTask = signal<string | null>(null);

/** Nobody reads what they pass over. */
const passingMs = 60;
let pointing: ReturnType<typeof setTimeout> | undefined;

/** Somebody points at a task, or at none; it counts when they stay with it. */
export function pointAt(taskId: string | null): void {
  clearTimeout(pointing);
  pointing = setTimeout(() => {
    pointedTask.value = taskId;
  }, passingMs);
}

/** The sentence that somebody points at. */
export const pointedStep = signal<LitStep | null>(null);
/** The boat whose chain is told. */
export const toldBoat = signal<Boat | null>(null);

/** Tasks to be lit, with the number of the sentence about each. */
export const litTasks = computed<ReadonlyMap<string, number>>(() => {
  const boat = toldBoat.value;
  const at = pointedStep.value;
  const lit = new Map<string, number>();
  if (boat === null || at?.refitId !== boat.refitId) return lit;
  const step = boat.chain.at(at.step);
  if (step === undefined) return lit;
  if (step.fromTask !== null) lit.set(step.fromTask, at.step + 1);
  lit.set(step.toTask, at.step + 1);
  return lit;
});

/** Sentences about the task that is pointed at, by their place. */
export const litSteps = computed<ReadonlySet<number>>(() => {
  const boat = toldBoat.value;
  const task = pointedTask.value;
  const about = (boat?.chain ?? []).flatMap(({ fromTask, toTask }, k) =>
    task !== null && (toTask === task || fromTask === task) ? [k] : [],
  );
  return new Set(about);
});

/** A page that is left lights nothing. */
export function putOut(): void {
  clearTimeout(pointing);
  pointedTask.value = null;
  pointedStep.value = null;
  toldBoat.value = null;
}

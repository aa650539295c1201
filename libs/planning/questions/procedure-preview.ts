import type { FabricAmount } from '#cure/batch/amounts.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import { frameOf } from '../compile/frame/time.ts';
import { observedMaterials } from '../compile/observed/observed.ts';
import { amountsOfTask } from '../compile/work/amounts.ts';
import { inTheirSpaces } from '../workload/in-space.ts';
import { makeWorkload } from '../workload/make.ts';
import type { Task, TaskLink, Workload } from '../workload/workload.ts';
import type { Procedure } from '../yard/procedures.ts';
import type { Yard } from '../yard/yard.ts';
import { linkWords } from './link-words.ts';

/** A procedure carried out on a part of these sizes, in the space where that would be. */
export interface PreviewQuestion {
  readonly procedure: Procedure;
  readonly areaM2: number;
  readonly edgeM: number;
  readonly jointM: number;
  readonly space: string;
  /** Where the procedure's moves to the job's destination go; null: the part stays. */
  readonly destination: string | null;
}

/** What a wet task mixes. */
export interface PreviewMix {
  readonly mixGrams: number;
  readonly filmMm: number | null;
  readonly fabrics: readonly FabricAmount[];
}

export interface PreviewTask {
  readonly task: Task;
  readonly mix: PreviewMix | null;
  /** Why nothing can be weighed; null: it can, or nothing is mixed. */
  readonly lacks: string | null;
  /** The branch that it is done in; null: in all ways. */
  readonly way: { readonly choice: string; readonly branch: string } | null;
  readonly waits: readonly {
    readonly stepId: string;
    readonly words: string;
    readonly way: PreviewTask['way'];
  }[];
}

export interface PreviewChoice {
  readonly id: string;
  readonly name: string;
  readonly branches: readonly {
    readonly id: string;
    readonly name: string;
    readonly workMinutes: number;
  }[];
}

export interface ProcedurePreview {
  readonly tasks: readonly PreviewTask[];
  readonly choices: readonly PreviewChoice[];
  /** Builder-minutes by the shortest and by the longest way through the choices. */
  readonly workMinutes: { readonly least: number; readonly most: number };
}

const JOB = 'preview';

/** The yard with nothing in it but one part, and on that one job. */
function alone(yard: Yard, asked: PreviewQuestion): Yard {
  const { procedure, areaM2, edgeM, jointM, space, destination } = asked;
  const job = {
    id: JOB,
    procedure: procedure.id,
    after: [],
    destination,
    joins: [],
    waitsFor: [],
    words: [],
  };
  const part = { id: JOB, name: JOB, space, areaM2, edgeM, jointM, layers: [], jobs: [job] };
  const refit = {
    id: JOB,
    name: JOB,
    release: yard.planFrom,
    promised: null,
    handovers: [],
    weight: 1,
    parts: [part],
  };
  return {
    ...yard,
    procedures: [procedure],
    boats: [{ id: JOB, name: JOB, owner: null, refits: [refit] }],
  };
}

const stepOf = (taskId: string): string => taskId.slice(JOB.length + 1);

/** What would be weighed, or what it lacks to be: of a part without an area, or a sheet without a density. */
function mixOf(
  yard: Yard,
  task: Task,
  materials: ReadonlyMap<string, CureMaterial>,
): Pick<PreviewTask, 'mix' | 'lacks'> {
  const material = task.material === null ? undefined : materials.get(task.material);
  if (material === undefined || task.quantity === null) return { mix: null, lacks: null };
  try {
    const amounts = amountsOfTask(yard, task, material);
    if (amounts === null) return { mix: null, lacks: null };
    const { mixGrams, filmMm, fabrics } = amounts;
    return { mix: { mixGrams, filmMm, fabrics }, lacks: null };
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    return { mix: null, lacks: `${error.message}. ${error.cure}` };
  }
}

interface Ways {
  readonly ofTask: (id: string) => PreviewTask['way'];
  readonly ofLink: (id: string) => PreviewTask['way'];
}

function waysOf({ choices }: Workload): Ways {
  const find = (of: 'tasks' | 'links', id: string): PreviewTask['way'] => {
    for (const choice of choices) {
      const branch = choice.branches.find((one) => one[of].includes(id));
      if (branch !== undefined) return { choice: stepOf(choice.id), branch: branch.id };
    }
    return null;
  };
  return { ofTask: (id) => find('tasks', id), ofLink: (id) => find('links', id) };
}

function waitsOf(
  task: Task,
  links: readonly TaskLink[],
  names: ReadonlyMap<string, string>,
  ways: Ways,
) {
  return links
    .filter(({ to }) => to === task.id)
    .map((link) => ({
      stepId: stepOf(link.from),
      words: linkWords(link, names.get(link.from) ?? stepOf(link.from)),
      way: ways.ofLink(link.id),
    }));
}

function choicesOf({ tasks, choices }: Workload): PreviewChoice[] {
  const work = new Map(tasks.map(({ id, workMinutes }) => [id, workMinutes]));
  return choices.map(({ id, name, branches }) => ({
    id: stepOf(id),
    name,
    branches: branches.map((branch) => ({
      id: branch.id,
      name: branch.name,
      workMinutes: branch.tasks.reduce((sum, task) => sum + (work.get(task) ?? 0), 0),
    })),
  }));
}

/**
 * The tasks that a procedure makes for a part, in the procedure's order, and what they mix; nothing
 * is made. The yard must have been checked with the procedure in it. Throws yard.cycle.
 */
export function procedurePreview(yard: Yard, asked: PreviewQuestion): ProcedurePreview {
  const only = alone(yard, asked);
  const workload = inTheirSpaces(only, makeWorkload(only));
  const { materials } = observedMaterials(yard, frameOf(yard, undefined, undefined));
  const ways = waysOf(workload);
  const names = new Map(workload.tasks.map(({ id, name }) => [id, name]));
  const tasks = workload.tasks.map((task): PreviewTask => ({
    task,
    ...mixOf(only, task, materials),
    way: ways.ofTask(task.id),
    waits: waitsOf(task, workload.links, names, ways),
  }));
  const choices = choicesOf(workload);
  const always = tasks
    .filter(({ way }) => way === null)
    .reduce((sum, { task }) => sum + task.workMinutes, 0);
  const by = (pick: (...of: number[]) => number): number =>
    choices.reduce(
      (sum, { branches }) => sum + pick(...branches.map(({ workMinutes }) => workMinutes)),
      always,
    );
  return { tasks, choices, workMinutes: { least: by(Math.min), most: by(Math.max) } };
}

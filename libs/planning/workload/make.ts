import { DomainError } from '#kernel/error.ts';
import type { Job, Part } from '../yard/boats.ts';
import type { Procedure, Step } from '../yard/procedures.ts';
import type { Yard } from '../yard/yard.ts';
import { endsOf } from './ends.ts';
import { locate, type Located } from './locate.ts';
import { sized, workMinutes } from './size.ts';
import type { Task, TaskChoice, TaskHold, TaskLink, Workload } from './workload.ts';

interface Place {
  readonly refitId: string;
  readonly part: Part;
  readonly job: Job;
}

/** A task but for where it is done. */
type Draft = Omit<Task, 'space' | 'movesTo'>;

function holdsOf(step: Step, here: (step: string) => string): TaskHold[] {
  return step.holds.map(({ id, tool, count, until }) => ({
    id,
    tool,
    count,
    until: until.map((end) =>
      end.kind === 'step' ? { kind: 'task', task: here(end.step), anchor: end.anchor } : end,
    ),
  }));
}

function draftOf(step: Step, { refitId, part, job }: Place): Draft {
  const here = (id: string): string => `${job.id}.${id}`;
  return {
    id: here(step.id),
    refitId,
    partId: part.id,
    jobId: job.id,
    stepId: step.id,
    name: step.name,
    workMinutes: step.crewMax === 0 ? 0 : workMinutes(step.effort, part),
    floorMinutes: step.floorMinutes,
    skill: step.skill,
    minLevel: step.minLevel,
    crewMin: step.crewMin,
    crewMax: step.crewMax,
    air: step.air,
    material: step.material,
    quantity: step.quantity,
    oneBatch: step.oneBatch,
    prepares: step.prepares,
    bonding: step.bonding,
    parts: step.onPart ? [part.id, ...(step.joins ? job.joins : [])] : [],
    tools: step.tools,
    splittable: step.splittable,
    breaks: step.breaks,
    cleanDownMinutes: step.cleanDownMinutes,
    holds: holdsOf(step, here),
    consumes: step.consumes.map((one) => ({ stock: one.stock, amount: sized(one, part) })),
    barrier: step.barrier,
    slots: step.slots,
    price: step.price,
    sensitiveUntil: step.sensitiveUntil,
    coveredBy: step.coveredBy.map(here),
    state: 'waiting',
    startedAt: null,
    finishedAt: null,
    crew: [],
    fixedStart: null,
    leftMinutes: null,
    rework: null,
    replaces: null,
    portion: 1,
  };
}

/** What `locate` asks of a task. */
function locatedOf(step: Step, draft: Draft, { part, job }: Place): Located {
  const { move } = step;
  const space =
    move?.kind === 'space' ? move.space : move?.kind === 'destination' ? job.destination : null;
  return {
    id: draft.id,
    partId: part.id,
    home: part.space,
    named: step.space,
    parts: draft.parts.length === 0 ? [part.id] : draft.parts,
    goes: move === null ? null : space === null ? { to: 'turn' } : { to: 'space', space },
  };
}

function choicesOf(procedure: Procedure, { part, job }: Place): TaskChoice[] {
  const here = (id: string): string => `${job.id}.${id}`;
  return procedure.choices.map((choice) => ({
    id: here(choice.id),
    name: choice.name,
    partId: part.id,
    branches: choice.branches.map((branch) => ({
      id: branch.id,
      name: branch.name,
      tasks: branch.steps.map(here),
      links: branch.links.map(here),
    })),
  }));
}

function procedureOf(yard: Yard, job: Job): Procedure {
  const found = yard.procedures.find((procedure) => procedure.id === job.procedure);
  if (found === undefined)
    throw new DomainError('yard.reference', `there is no procedure "${job.procedure}"`);
  return found;
}

/** Finish-to-start order: every last task of the earlier job before every first task of the later. */
function orderLinks(
  job: Job,
  procedure: Procedure,
  before: Job,
  beforeProcedure: Procedure,
): TaskLink[] {
  const { last } = endsOf(beforeProcedure);
  const { first } = endsOf(procedure);
  return last.flatMap((end) =>
    first.map((begin) => ({
      id: `${before.id}.${end}..${job.id}.${begin}`,
      from: `${before.id}.${end}`,
      to: `${job.id}.${begin}`,
      opens: { kind: 'after', minutes: 0 } as const,
      closes: null,
      sweep: 'unknown' as const,
      setBy: 'job' as const,
    })),
  );
}

/**
 * Everything to be done in a yard, as tasks that nobody has begun: each job is its
 * procedure's steps sized by its part, with their links and choices, and waits for the
 * jobs it comes after. Throws `yard.reference` or `yard.cycle` if the yard was never checked.
 */
export function makeWorkload(yard: Yard): Workload {
  const drafts: Draft[] = [];
  const located: Located[] = [];
  const links: TaskLink[] = [];
  const choices: TaskChoice[] = [];
  const places: Place[] = yard.boats.flatMap((boat) =>
    boat.refits.flatMap((refit) =>
      refit.parts.flatMap((part) => part.jobs.map((job) => ({ refitId: refit.id, part, job }))),
    ),
  );
  const jobs = new Map(places.map(({ job }) => [job.id, job]));
  for (const place of places) {
    const { job } = place;
    const procedure = procedureOf(yard, job);
    for (const step of procedure.steps) {
      const draft = draftOf(step, place);
      drafts.push(draft);
      located.push(locatedOf(step, draft, place));
    }
    for (const link of procedure.links) {
      links.push({
        ...link,
        id: `${job.id}.${link.id}`,
        from: `${job.id}.${link.from}`,
        to: `${job.id}.${link.to}`,
        setBy: 'procedure',
      });
    }
    choices.push(...choicesOf(procedure, place));
    for (const id of job.after) {
      const before = jobs.get(id);
      if (before === undefined) throw new DomainError('yard.reference', `there is no job "${id}"`);
      links.push(...orderLinks(job, procedure, before, procedureOf(yard, before)));
    }
  }
  const where = locate(
    located,
    links.filter(({ opens }) => opens !== null),
  );
  const tasks = drafts.map((draft): Task => {
    const found = where.get(draft.id);
    if (found === undefined)
      throw new DomainError('yard.cycle', `${draft.id} waits for itself in a circle`);
    return { ...draft, ...found };
  });
  return { tasks, links, choices };
}

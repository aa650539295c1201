import type { Interval } from '#calendar/intervals.ts';
import { workMinutes } from '#planning/workload/size.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Part } from '#planning/yard/boats.ts';
import type { Effort, Procedure } from '#planning/yard/procedures.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { type Presence, presenceOf, workedMinutes } from './worked.ts';

/** Time that was worked at a task, as it was reported. */
export interface ReportedSpan {
  readonly taskId: string;
  readonly start: Date;
  readonly end: Date;
  readonly crew: readonly string[];
}

/** What a finished task says of how long work takes, by the numbers that the yard plans with now. */
export interface Evidence {
  readonly taskId: string;
  readonly procedure: string;
  readonly step: string;
  readonly skill: string;
  readonly space: string;
  /** Builder-minutes: of this step, by these people's speeds, in this space; and those it took. */
  readonly planned: number;
  readonly actual: number;
  /** Who was at it for which share of that. */
  readonly shares: readonly { readonly person: string; readonly share: number }[];
}

/** Why a finished task says nothing. */
export const leftOutReasons = {
  rework: 'done as part of a rework',
  unreported: 'without times that somebody reported',
  unknown: 'of a step that the procedure no longer has, or by people without its skill now',
  resized: 'on a part that has another size now',
  bounded: 'as short as the step allows whoever does it',
} as const;
export type LeftOut = keyof typeof leftOutReasons;

export interface EvidenceInput {
  readonly yard: Yard;
  /** Tasks that are done. */
  readonly tasks: readonly Task[];
  readonly spans: readonly ReportedSpan[];
  /** All versions of the yard's procedures. */
  readonly versions: readonly Procedure[];
}

export interface Gathered {
  readonly evidence: readonly Evidence[];
  readonly leftOut: ReadonlyMap<LeftOut, number>;
}

const epochMinute = (at: Date): number => Math.round(at.getTime() / 60_000);

interface Place {
  readonly part: Part;
  readonly procedure: Procedure;
}

interface Site {
  readonly yard: Yard;
  readonly places: ReadonlyMap<string, Place>;
  /** Efforts that a step ever had, by procedure and step. */
  readonly efforts: ReadonlyMap<string, readonly Effort[]>;
  readonly presence: (person: string) => Presence | null;
  readonly percent: (space: string) => number;
  readonly speed: (person: string, skill: string) => number | null;
}

const stepKey = (procedure: string, step: string): string => `${procedure}\u0000${step}`;

function effortsOf(versions: readonly Procedure[]): Map<string, Effort[]> {
  const efforts = new Map<string, Effort[]>();
  for (const { id, steps } of versions) {
    for (const step of steps) {
      const key = stepKey(id, step.id);
      efforts.set(key, [...(efforts.get(key) ?? []), step.effort]);
    }
  }
  return efforts;
}

/** By job, the part it is on and the procedure as it is now. */
function placesOf(yard: Yard): Map<string, Place> {
  const procedures = new Map(yard.procedures.map((one) => [one.id, one]));
  const parts = yard.boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
  return new Map(
    parts.flatMap((part) =>
      part.jobs.flatMap((job): [string, Place][] => {
        const procedure = procedures.get(job.procedure);
        return procedure === undefined ? [] : [[job.id, { part, procedure }]];
      }),
    ),
  );
}

function siteOf({ yard, spans, versions }: EvidenceInput): Site {
  const people = new Map(yard.people.map((person) => [person.id, person]));
  const percents = new Map(yard.spaces.map(({ id, workPercent }) => [id, workPercent]));
  const all: Interval = {
    start: Math.min(...spans.map(({ start }) => epochMinute(start))) - 1440,
    end: Math.max(...spans.map(({ end }) => epochMinute(end))) + 1440,
  };
  const known = new Map<string, Presence>();
  return {
    yard,
    places: placesOf(yard),
    efforts: effortsOf(versions),
    presence: (id) => {
      const person = people.get(id);
      if (person === undefined) return null;
      const presence = known.get(id) ?? presenceOf(person, yard.timeZone, all);
      known.set(id, presence);
      return presence;
    },
    percent: (space) => percents.get(space) ?? 100,
    speed: (person, skill) =>
      people.get(person)?.abilities.find((ability) => ability.skill === skill)?.speed ?? null,
  };
}

/** Minutes by person; null where somebody is no longer of the yard. */
function minutesByPerson(
  task: Task,
  spans: readonly ReportedSpan[],
  site: Site,
): ReadonlyMap<string, number> | null {
  const minutes = new Map<string, number>();
  for (const { start, end, crew } of spans) {
    const span = { start: epochMinute(start), end: epochMinute(end) };
    for (const person of crew) {
      const presence = site.presence(person);
      if (presence === null) return null;
      const worked = workedMinutes(span, presence, task.breaks === 'observed');
      minutes.set(person, (minutes.get(person) ?? 0) + worked);
    }
  }
  return minutes;
}

function saidBy(task: Task, spans: readonly ReportedSpan[], site: Site): Evidence | LeftOut {
  const { skill } = task;
  const place = site.places.get(task.jobId);
  if (task.rework !== null) return 'rework';
  if (skill === null || spans.length === 0) return 'unreported';
  const step = place?.procedure.steps.find(({ id }) => id === task.stepId);
  if (place === undefined || step === undefined) return 'unknown';
  const { part, procedure } = place;
  const wasOf = site.efforts.get(stepKey(procedure.id, step.id)) ?? [];
  // As it was planned, by one of the versions that the step had: else the part was another then.
  if (!wasOf.some((effort) => workMinutes(effort, part) === task.workMinutes)) return 'resized';
  const minutes = minutesByPerson(task, spans, site);
  if (minutes === null) return 'unknown';
  const actual = [...minutes.values()].reduce((sum, one) => sum + one, 0);
  if (actual < 1) return 'unreported';
  const nominal = (workMinutes(step.effort, part) * site.percent(task.space)) / 100;
  let done = 0;
  for (const [person, worked] of minutes) {
    const speed = site.speed(person, skill);
    if (speed === null) return 'unknown';
    done += (worked * speed) / 100;
  }
  const planned = (nominal * actual) / done;
  if (task.floorMinutes * minutes.size >= planned) return 'bounded';
  return {
    taskId: task.id,
    procedure: procedure.id,
    step: step.id,
    skill,
    space: task.space,
    planned,
    actual,
    shares: [...minutes].map(([person, worked]) => ({ person, share: worked / actual })),
  };
}

/**
 * What finished tasks say. All of it is against the numbers of now, not those that a task was planned
 * with: what was learned and applied is not learned again.
 */
export function gather(input: EvidenceInput): Gathered {
  const spans = new Map<string, ReportedSpan[]>();
  for (const span of input.spans) {
    const own = spans.get(span.taskId);
    if (own === undefined) spans.set(span.taskId, [span]);
    else own.push(span);
  }
  const leftOut = new Map<LeftOut, number>();
  if (input.spans.length === 0) {
    return {
      evidence: [],
      leftOut: input.tasks.length === 0 ? leftOut : leftOut.set('unreported', input.tasks.length),
    };
  }
  const site = siteOf(input);
  const evidence: Evidence[] = [];
  for (const task of input.tasks) {
    const said = saidBy(task, spans.get(task.id) ?? [], site);
    if (typeof said === 'string') leftOut.set(said, (leftOut.get(said) ?? 0) + 1);
    else evidence.push(said);
  }
  return { evidence, leftOut };
}

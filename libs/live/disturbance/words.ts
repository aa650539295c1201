import { z } from 'zod';
import { localWords } from '#calendar/local-time.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { HeldAgainst } from './off-plan.ts';

/** An event of the yard's log. */
export interface Happened {
  readonly kind: string;
  readonly subject: string;
  readonly subjectId: string;
  readonly payload: unknown;
}

export interface DisturbedYard {
  readonly yard: Yard;
  readonly workload: Workload;
  /** What the event is held against, the published plan first. */
  readonly plans: readonly HeldAgainst[];
}

const named: Readonly<Record<string, string>> = {
  boat: 'The boat',
  refit: 'The refit',
  part: 'The part',
  job: 'The job',
  person: 'What is known of',
  space: 'The space',
  tool: 'The tool',
  stock: 'The stock',
  barrier: 'The barrier',
  'slot-list': 'The slots of',
  delivery: 'The delivery',
  material: 'The material',
};

interface Named {
  readonly id: string;
  readonly name: string;
}

function listOf({ yard }: DisturbedYard, subject: string): readonly Named[] {
  const refits = yard.boats.flatMap((boat) => boat.refits);
  switch (subject) {
    case 'boat':
      return yard.boats;
    case 'refit':
      return refits;
    case 'part':
      return refits.flatMap(({ parts }) => parts);
    case 'person':
      return yard.people;
    case 'space':
      return yard.spaces;
    case 'tool':
      return yard.tools;
    case 'stock':
      return yard.stocks;
    case 'barrier':
      return yard.barriers;
    case 'slot-list':
      return yard.slotLists;
    case 'delivery':
      return yard.deliveries;
    case 'material':
      return yard.materials;
    default:
      return [];
  }
}

/** What was removed has no name any more, but its id. */
export const nameIn = (yard: DisturbedYard, subject: string, id: string): string =>
  listOf(yard, subject).find((one) => one.id === id)?.name ?? id;

export function taskWords(yard: DisturbedYard, id: string): string {
  const task = yard.workload.tasks.find((one) => one.id === id);
  if (task === undefined) return `"${id}"`;
  const boat = yard.yard.boats.find(({ refits }) => refits.some((one) => one.id === task.refitId));
  const part = nameIn(yard, 'part', task.partId);
  return `"${task.name}" (${boat?.name ?? task.refitId}, ${part})`;
}

const people = new Intl.ListFormat('en');

function fixedWords(yard: DisturbedYard, task: Task | undefined): string {
  if (task === undefined) return 'was fixed by the foreman';
  const { timeZone } = yard.yard;
  const { fixedStart, crew } = task;
  const to = fixedStart === null ? '' : ` to begin ${localWords(fixedStart, timeZone)}`;
  const who = crew.map((id) => nameIn(yard, 'person', id));
  const whom = who.length === 0 ? '' : ` for ${people.format(who)}`;
  return to === '' && whom === '' ? 'was set free, or its order was' : `was set${to}${whom}`;
}

const saidSchema = z.object({ words: z.string().min(1) });
const rungSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('overrun'), taskId: z.string() }),
  z.object({ kind: z.literal('unbegun'), taskId: z.string(), at: z.iso.datetime() }),
]);
const countSchema = z.object({ count: z.int() });

const endings = { added: 'was added', changed: 'was changed', removed: 'was taken out' } as const;

export function recordWords(
  yard: DisturbedYard,
  { kind, subject, subjectId }: Happened,
): string | null {
  const ending = Object.entries(endings).find(([what]) => kind === `${subject}-${what}`)?.[1];
  const noun = Object.hasOwn(named, subject) ? named[subject] : undefined;
  if (ending === undefined || noun === undefined) return null;
  return `${noun} ${nameIn(yard, subject, subjectId)} ${ending}.`;
}

export function weatherWords(yard: DisturbedYard, { kind, subject, subjectId, payload }: Happened) {
  const name = nameIn(yard, subject, subjectId);
  switch (kind) {
    case 'readings-added': {
      const many = countSchema.safeParse(payload).data?.count;
      return `${name}: ${many === undefined || many === 1 ? 'a new reading' : `${String(many)} new readings`}.`;
    }
    case 'reading-removed':
      return `${name}: a reading was taken out.`;
    case 'observation-added':
      return `${name}: a new finding of how it cures.`;
    case 'observation-removed':
      return `${name}: a finding of how it cures was taken out.`;
    default:
      return 'New temperatures for outdoors.';
  }
}

function rungWords(yard: DisturbedYard, payload: unknown): string | null {
  const rung = rungSchema.safeParse(payload).data;
  if (rung === undefined) return null;
  const what = taskWords(yard, rung.taskId);
  if (rung.kind === 'overrun') return `${what} goes on past its expected end.`;
  const starts = yard.plans.map(
    ({ sheet }) => sheet.tasks.find(({ id }) => id === rung.taskId)?.start.at ?? null,
  );
  const [start] = starts;
  // A plan that has it later, or not at all, has been made since then, or knows.
  const isKnown = starts.some((one) => one === null || Date.parse(one) > Date.parse(rung.at));
  if (isKnown || start === null) return null;
  return `${what} was to begin ${localWords(start, yard.yard.timeZone)}, and nobody has begun it.`;
}

export function otherWords(
  yard: DisturbedYard,
  { kind, subjectId, payload }: Happened,
): string | null {
  const said = saidSchema.safeParse(payload).data?.words;
  switch (kind) {
    case 'task-fixed': {
      const task = yard.workload.tasks.find(({ id }) => id === subjectId);
      return `${taskWords(yard, subjectId)} ${fixedWords(yard, task)}.`;
    }
    case 'rework-made':
      return said ?? `Work is done again: ${taskWords(yard, subjectId)}.`;
    case 'rework-undone':
      return said ?? `Work need not be done again: ${taskWords(yard, subjectId)}.`;
    case 'window-missed':
      return said ?? `A window was missed: ${taskWords(yard, subjectId)}.`;
    case 'change-accepted':
      return said ?? 'A change of the work was accepted.';
    case 'productivity-applied':
      return said ?? 'Hours are reckoned by what was learned.';
    case 'yard-changed':
      return 'What holds for the whole yard was changed.';
    case 'alarm-rung':
      return rungWords(yard, payload);
    default:
      return null;
  }
}

import { localWords } from '#calendar/local-time.ts';
import { DomainError, fault } from '#kernel/error.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { ClaimLife, TaskLife, WorkEventKind, WorkSpan } from './life.ts';

/** The circumstances of a report of work. */
export interface Acting {
  readonly task: Pick<Task, 'id' | 'name' | 'skill' | 'material' | 'splittable' | 'workMinutes'> &
    Pick<Task, 'crewMax'>;
  /** When it really was: UTC with milliseconds; of what becomes part of a plan, the whole minute. */
  readonly at: string;
  /** The same, not cut to the minute. */
  readonly exactly: string;
  /** Who reports it. */
  readonly by: string;
  readonly isForeman: boolean;
  /** For what the report makes: UUIDs that nothing has yet. */
  readonly ids: { readonly claim: string; readonly span: string };
  /** How long a claim holds its task without being started. */
  readonly leaseSeconds: number;
  /** The task's last claim, where that lapsed and nobody has had it since. */
  readonly lapsed: ClaimLife | null;
  /** Why the foreman has it begun against what the service advises. */
  readonly override: string | null;
  /** Builder-minutes at the nominal rate that a crew does in a minute. */
  readonly pace: (crew: readonly string[]) => number;
  /** When a crew that goes on at a moment is through with so many builder-minutes. */
  readonly endOf: (crew: readonly string[], from: string, left: number) => string;
  readonly nameOf: (member: string) => string;
  /** The yard's: what is said of moments is said by its clocks. */
  readonly timeZone: string;
}

/** What a report made of a life, and the event that says so. */
export interface Acted {
  readonly after: TaskLife;
  readonly kind: WorkEventKind;
  readonly reason: string | null;
}

/** A hold point takes nobody's time: its claim says who is told the word. */
export const isHoldPoint = ({ task }: Acting): boolean => task.skill === null;

const later = (a: string, b: string): string => (a < b ? b : a);

const listed = (words: readonly string[]): string => new Intl.ListFormat('en').format(words);

export const namesOf = (crew: readonly string[], { nameOf }: Pick<Acting, 'nameOf'>): string =>
  listed(crew.map(nameOf));

/** Throws where there is no claim, or where it is none of the reporter's. */
export function heldBy(life: TaskLife, acting: Acting): ClaimLife {
  const { claim } = life;
  if (claim === null) {
    throw new DomainError('claim.state', `Nobody has claimed "${acting.task.name}".`, {
      cure: 'Claim it first.',
    });
  }
  assertOwn(claim, acting);
  return claim;
}

export function assertOwn({ crew }: Pick<ClaimLife, 'crew'>, acting: Acting): void {
  if (acting.isForeman || crew.includes(acting.by)) return;
  throw new DomainError('access.role', `${namesOf(crew, acting)} holds this claim.`, {
    cure: 'Ask them, or the foreman.',
  });
}

export function expectStatus(claim: ClaimLife, status: ClaimLife['status']): void {
  if (claim.status === status) return;
  throw new DomainError('claim.state', `The claim is ${claim.status}, not ${status}.`);
}

/** Throws `input.field` where the moment is before what it has to follow. */
export function assertNotBefore(acting: Acting, earliest: string | null, what: string): void {
  const { at, timeZone } = acting;
  if (earliest === null || at >= earliest) return;
  const message = `is before ${what}, ${localWords(earliest, timeZone)}`;
  const cure = 'Give the moment at which it really was.';
  const faults = [fault('input.field', 'at', message, { value: at, cure })];
  throw new DomainError('input.field', `at: ${message}`, { cure, faults });
}

/** In order of their starts; of two in one minute by id, as they are read back. */
export const inTime = (spans: readonly WorkSpan[]): WorkSpan[] =>
  spans.toSorted((a, b) =>
    a.start === b.start ? (a.id < b.id ? -1 : 1) : a.start < b.start ? -1 : 1,
  );

export const openSpan = ({ spans }: TaskLife): WorkSpan | undefined =>
  spans.find(({ end }) => end === null);

/** When it was last left; null of work that was never at hand. */
export const lastEnd = ({ spans }: TaskLife): string | null =>
  spans.reduce<string | null>(
    (last, { end }) => (end === null ? last : later(last ?? end, end)),
    null,
  );

export function closed(spans: readonly WorkSpan[], at: string): WorkSpan[] {
  return spans.map((span) => (span.end === null ? { ...span, end: at } : span));
}

/** The time of one crew ends and of another begins; a crew that had none leaves none behind. */
export function changedOver(
  life: TaskLife,
  crew: readonly string[],
  { at, ids }: Acting,
): WorkSpan[] {
  const open = openSpan(life);
  if (open === undefined) return life.spans;
  if (open.start === at) {
    return life.spans.map((span) => (span === open ? { ...span, crew: [...crew] } : span));
  }
  const next = { id: ids.span, claimId: open.claimId, start: at, end: null, crew: [...crew] };
  return inTime([...closed(life.spans, at), next]);
}

/** Those for whom it is set, then the others of the crew. */
export const doneBy = (life: TaskLife, crew: readonly string[], acting: Acting): string[] =>
  isHoldPoint(acting) ? [...life.setCrew] : [...new Set([...life.setCrew, ...crew])];

/** All who ever were at it. */
export function everAt(life: TaskLife): string[] {
  return [...new Set([...life.crew, ...life.spans.flatMap(({ crew }) => crew)])];
}

import { DomainError, type Fault } from '#kernel/error.ts';
import type { WorkCommand } from '#live/life/commands.ts';
import { assertCrewFits } from '#live/life/crew.ts';
import type { ClaimLife, TaskLife } from '#live/life/life.ts';
import { startRisks } from '#live/life/start-risks.ts';
import { standing } from '#planning/decode/ready/standing.ts';
import { nameIn, type WorkPlace } from './work-place.ts';

/** Throws `claim.not-ready` with what keeps the task from beginning at a moment. */
function assertReady({ state, task }: WorkPlace, at: string): void {
  const why = standing({ ...state, now: at }).whyNot(task.id);
  if (why === null) return;
  throw new DomainError('claim.not-ready', `The task is not ready: ${why.why}.`);
}

/** Nobody is at work on two tasks; who is told the word of a hold point is at none. */
function assertIdle({ state, task }: WorkPlace, crew: readonly string[]): void {
  if (task.skill === null) return;
  for (const [id, { claim }] of state.lives) {
    if (id === task.id || claim?.status !== 'working') continue;
    const busy = crew.find((member) => claim.crew.includes(member));
    const other =
      busy === undefined ? undefined : state.workload.tasks.find((one) => one.id === id);
    if (busy === undefined || !other || other.skill === null) continue;
    throw new DomainError('claim.state', `${nameIn(state)(busy)} is at work on "${other.name}".`, {
      cure: 'Finish, pause or release that first.',
    });
  }
}

/** Throws `claim.crew`. A hold point takes nobody, and is in hand of whoever is told the word. */
function assertFit({ state, task }: WorkPlace, crew: readonly string[], least?: number): void {
  if (task.skill === null) return;
  assertCrewFits(state.yard, { ...task, crewMin: least ?? task.crewMin }, crew);
}

/**
 * The reason with which the foreman has work begun that is not ready, or would come to no good end;
 * null where it may begin anyway. Throws `claim.not-ready` and `work.unsafe-start` without one.
 */
export function startAgainst(
  place: WorkPlace,
  crew: readonly string[],
  at: string,
  override: { readonly reason: string } | undefined,
): string | null {
  const { state, task } = place;
  const unsafe = task.state === 'paused' ? [] : startRisks({ yard: state.yard, task, crew, at });
  if (override === undefined) {
    assertReady(place, at);
    if (unsafe.length > 0) throw unsafeStart(task.name, unsafe);
    return null;
  }
  const isReady = standing({ ...state, now: at }).whyNot(task.id) === null;
  return isReady && unsafe.length === 0 ? null : override.reason;
}

function unsafeStart(name: string, faults: readonly Fault[]): DomainError {
  const why = faults.map(({ message }) => message).join('; ');
  return new DomainError('work.unsafe-start', `"${name}" should not begin now: ${why}.`, {
    faults,
  });
}

/** What has to be so beside the life itself, before a report of it is taken. */
export function assertMay(
  place: WorkPlace,
  command: WorkCommand,
  { claim }: TaskLife,
  at: string,
): void {
  if (claim === null) return;
  switch (command.kind) {
    case 'claim':
      assertFit(place, claim.crew);
      assertReady(place, at);
      return;
    case 'join':
      assertFit(place, claim.crew, 1);
      if (claim.status === 'working') assertIdle(place, newIn(place.life.claim, claim));
      return;
    case 'start':
      assertFit(place, claim.crew);
      assertIdle(place, claim.crew);
      return;
    case 'resume':
      assertIdle(place, claim.crew);
      assertReady(place, at);
      return;
    case 'undo':
      if (claim.status === 'working') assertIdle(place, claim.crew);
      return;
    default:
      return;
  }
}

const newIn = (before: ClaimLife | null, { crew }: ClaimLife): string[] =>
  crew.filter((member) => before?.crew.includes(member) !== true);

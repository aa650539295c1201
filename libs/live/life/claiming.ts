import { localWords } from '#calendar/local-time.ts';
import { DomainError } from '#kernel/error.ts';
import {
  assertOwn,
  changedOver,
  closed,
  doneBy,
  heldBy,
  isHoldPoint,
  namesOf,
  openSpan,
  type Acted,
  type Acting,
  assertNotBefore,
} from './acting.ts';
import { leftNow } from './left.ts';
import type { ClaimLife, TaskLife } from './life.ts';

const leaseEnd = ({ at, leaseSeconds }: Acting): string =>
  new Date(Date.parse(at) + leaseSeconds * 1000).toISOString();

/** Whether an open claim is over at a moment, since nobody began. */
export const hasLapsed = ({ claim }: Pick<TaskLife, 'claim'>, now: string): boolean =>
  claim?.status === 'open' && claim.lapsesAt !== null && claim.lapsesAt <= now;

/** Throws `claim.taken`. */
export function assertFree(
  life: TaskLife,
  acting: { readonly task: Pick<Acting['task'], 'name'> } & Pick<Acting, 'nameOf' | 'timeZone'>,
): void {
  const { claim } = life;
  if (claim === null) return;
  const since = localWords(claim.claimedAt, acting.timeZone);
  const hold = claim.crew.length > 1 ? 'hold' : 'holds';
  throw new DomainError(
    'claim.taken',
    `${namesOf(claim.crew, acting)} ${hold} "${acting.task.name}" since ${since}.`,
  );
}

/** Takes work that waits, or the rest of what was put aside, for a crew that is fit for it. */
export function claim(life: TaskLife, named: readonly string[] | undefined, acting: Acting): Acted {
  const { at, by, ids, isForeman } = acting;
  assertFree(life, acting);
  if (life.state !== 'waiting' && life.state !== 'paused') {
    const is = life.state === 'working' ? 'it is being done' : 'it is done';
    throw new DomainError('claim.not-ready', `The task is not ready: ${is}.`);
  }
  const crew = [...new Set(named ?? [by])];
  if (!isForeman && !crew.includes(by)) {
    throw new DomainError('access.role', 'Only the foreman claims work for others.');
  }
  if (!isHoldPoint(acting) && !life.setCrew.every((member) => crew.includes(member))) {
    const whom = namesOf(life.setCrew, acting);
    throw new DomainError('claim.crew', `The foreman has set this task for ${whom}.`);
  }
  const made: ClaimLife = {
    id: ids.claim,
    status: 'open',
    holder: crew[0],
    crew,
    claimedAt: at,
    lapsesAt: leaseEnd(acting),
    startedAt: null,
    override: null,
  };
  return { after: { ...life, claim: made }, kind: 'task-claimed', reason: null };
}

/** Nobody began in time: the task is free again. */
export function lapse(life: TaskLife): Acted {
  return { after: { ...life, claim: null }, kind: 'claim-lapsed', reason: null };
}

function withCrew(
  life: TaskLife,
  held: ClaimLife,
  crew: readonly [string, ...string[]],
  acting: Acting,
): TaskLife {
  const claim = { ...held, holder: crew[0], crew: [...crew] };
  if (life.state === 'waiting' || held.status === 'open') return { ...life, claim };
  const setCrew = life.setCrew.filter((member) => crew.includes(member));
  const changed = { ...life, claim, setCrew, crew: doneBy({ ...life, setCrew }, crew, acting) };
  if (openSpan(life) === undefined) return changed;
  const left = leftNow(life, acting);
  return {
    ...changed,
    spans: changedOver(life, isHoldPoint(acting) ? [] : crew, acting),
    leftMinutes: left,
    finishedAt: isHoldPoint(acting) ? life.finishedAt : acting.endOf(crew, acting.at, left),
  };
}

/** One more at it. Whether the member is fit for it is judged before. */
export function join(life: TaskLife, named: string | undefined, acting: Acting): Acted {
  const member = named ?? acting.by;
  const held = life.claim ?? heldBy(life, acting);
  if (member !== acting.by) assertForeman(acting, 'sends others');
  if (held.crew.includes(member)) {
    throw new DomainError('claim.state', `${acting.nameOf(member)} is in the crew already.`);
  }
  if (held.crew.length >= acting.task.crewMax && !isHoldPoint(acting)) {
    const most = String(acting.task.crewMax);
    throw new DomainError('claim.crew', `"${acting.task.name}" takes ${most} at the most.`);
  }
  assertNotBefore(acting, openSpan(life)?.start ?? null, 'the crew began');
  const [holder, ...others] = held.crew;
  const after = withCrew(life, held, [holder, ...others, member], acting);
  return { after, kind: 'crew-joined', reason: null };
}

/** One less at it; the last of a crew gives the task back instead. */
export function leave(life: TaskLife, named: string | undefined, acting: Acting): Acted {
  const member = named ?? acting.by;
  const held = life.claim ?? heldBy(life, acting);
  if (member !== acting.by) assertForeman(acting, 'takes others off it');
  if (!held.crew.includes(member)) {
    throw new DomainError('claim.state', `${acting.nameOf(member)} is not in the crew.`);
  }
  const rest = held.crew.filter((one) => one !== member);
  if (rest.length === 0) {
    throw new DomainError('claim.state', `${acting.nameOf(member)} is the last at it.`, {
      cure: 'Release the claim, or finish the work.',
    });
  }
  assertNotBefore(acting, openSpan(life)?.start ?? null, 'the crew began');
  const [holder, ...others] = rest;
  const after = withCrew(life, held, [holder, ...others], acting);
  return { after, kind: 'crew-left', reason: null };
}

/**
 * Gives the task back: not begun, as it was; begun, as if it never had, or with so much of it left
 * for somebody else. Wet work has to come to its end: its film is there and cures.
 */
export function release(life: TaskLife, said: number | undefined, acting: Acting): Acted {
  const held = heldBy(life, acting);
  const { task } = acting;
  assertOwn(held, acting);
  if (held.status === 'open') {
    return { after: { ...life, claim: null }, kind: 'task-released', reason: null };
  }
  if (task.material !== null) {
    throw new DomainError('claim.state', `"${task.name}" has begun and its film cures.`, {
      cure: 'Finish it, or report it abandoned: what was laid then has to come off.',
    });
  }
  const others = life.spans.filter(({ claimId }) => claimId !== held.id);
  if (said === undefined && others.length === 0 && held.status === 'working') {
    const untouched = { startedAt: null, finishedAt: null, leftMinutes: null, spans: [] };
    const after = {
      ...life,
      ...untouched,
      state: 'waiting' as const,
      crew: [...life.setCrew],
      claim: null,
    };
    return { after, kind: 'task-released', reason: null };
  }
  if (!task.splittable) throw inOneGo(task.name, 'given back half done');
  assertNotBefore(acting, openSpan(life)?.start ?? null, 'the work began');
  return {
    after: {
      ...life,
      state: 'paused',
      finishedAt: null,
      leftMinutes: said ?? leftNow(life, acting),
      crew: [...life.setCrew],
      claim: null,
      spans: closed(life.spans, acting.at),
    },
    kind: 'task-released',
    reason: null,
  };
}

export function inOneGo(name: string, how: string): DomainError {
  return new DomainError('claim.state', `"${name}" is done in one go: it cannot be ${how}.`, {
    cure: 'Finish it, or release it as if it had not begun.',
  });
}

function assertForeman({ isForeman }: Acting, does: string): void {
  if (isForeman) return;
  throw new DomainError('access.role', `Only the foreman ${does}.`);
}

import { localWords } from '#calendar/local-time.ts';
import { DomainError } from '#kernel/error.ts';
import { isInOneGo } from '#planning/workload/workload.ts';
import {
  assertNotBefore,
  assertOwn,
  closed,
  doneBy,
  everAt,
  expectStatus,
  heldBy,
  inTime,
  isHoldPoint,
  lastEnd,
  openSpan,
  type Acted,
  type Acting,
} from './acting.ts';
import { inOneGo } from './claiming.ts';
import { leftNow } from './left.ts';
import type { ClaimLife, TaskLife } from './life.ts';

/**
 * The claim that is begun on. One that lapsed counts where work began before it did and nobody has
 * taken the task since: that it did came late, out of a hull without a signal say.
 */
function begunOn(life: TaskLife, acting: Acting): ClaimLife {
  const { exactly, lapsed, task } = acting;
  const claim = life.claim ?? lapsed;
  if (claim === null) return heldBy(life, acting);
  assertOwn(claim, acting);
  expectStatus(claim, 'open');
  if (claim.lapsesAt !== null && exactly > claim.lapsesAt) {
    throw new DomainError(
      'claim.lapsed',
      `The claim of "${task.name}" lapsed ${localWords(claim.lapsesAt, acting.timeZone)}: nobody had begun.`,
    );
  }
  return claim;
}

function atWork(life: TaskLife, claim: ClaimLife, acting: Acting): TaskLife {
  const { at, ids } = acting;
  assertNotBefore(acting, lastEnd(life), 'it was put aside');
  const crew = isHoldPoint(acting) ? [] : claim.crew;
  const span = { id: ids.span, claimId: claim.id, start: at, end: null, crew: [...crew] };
  const { leftMinutes } = life;
  return {
    ...life,
    state: 'working',
    startedAt: life.startedAt ?? at,
    finishedAt: leftMinutes === null ? null : acting.endOf(crew, at, leftMinutes),
    crew: doneBy(life, claim.crew, acting),
    claim: { ...claim, status: 'working', startedAt: claim.startedAt ?? at, lapsesAt: null },
    spans: inTime([...life.spans, span]),
  };
}

/** Work begins, or what another crew put aside goes on. */
export function start(life: TaskLife, acting: Acting): Acted {
  const claim = begunOn(life, acting);
  if (life.state !== 'waiting' && life.state !== 'paused') {
    throw new DomainError('claim.state', `"${acting.task.name}" is ${life.state}, not waiting.`);
  }
  const { by, override: reason } = acting;
  const after = atWork(
    life,
    { ...claim, override: reason === null ? null : { reason, by } },
    acting,
  );
  return { after, kind: life.state === 'paused' ? 'task-resumed' : 'task-started', reason };
}

/** Those who put it aside go on. */
export function resume(life: TaskLife, acting: Acting): Acted {
  const claim = heldBy(life, acting);
  if (claim.status === 'open' && life.state === 'paused') return start(life, acting);
  expectStatus(claim, 'paused');
  return { after: atWork(life, claim, acting), kind: 'task-resumed', reason: null };
}

/** Puts work aside that can be done in pieces; the crew keeps it. */
export function pause(life: TaskLife, said: number | undefined, acting: Acting): Acted {
  const claim = heldBy(life, acting);
  const { task, at } = acting;
  expectStatus(claim, 'working');
  if (isInOneGo(task)) {
    throw inOneGo(task.name, 'put aside');
  }
  assertNotBefore(acting, openSpan(life)?.start ?? null, 'the work began');
  const after: TaskLife = {
    ...life,
    state: 'paused',
    finishedAt: null,
    leftMinutes: said ?? leftNow(life, acting),
    claim: { ...claim, status: 'paused' },
    spans: closed(life.spans, at),
  };
  return { after, kind: 'task-paused', reason: null };
}

/** How much is left: when it will be over, and what is planned after it, follow from that. */
export function progress(life: TaskLife, left: number, acting: Acting): Acted {
  const claim = heldBy(life, acting);
  const open = openSpan(life);
  const reported = { kind: 'task-progressed', reason: null } as const;
  if (claim.status === 'paused') return { after: { ...life, leftMinutes: left }, ...reported };
  expectStatus(claim, 'working');
  if (isHoldPoint(acting)) {
    throw new DomainError('claim.state', `"${acting.task.name}" is a hold point: nothing is done.`);
  }
  const { at, ids } = acting;
  assertNotBefore(acting, open?.start ?? null, 'the work began');
  const next = { id: ids.span, claimId: claim.id, start: at, end: null, crew: [...claim.crew] };
  // A new span says since when that much is left.
  const spans =
    open === undefined || open.start === at
      ? life.spans
      : inTime([...closed(life.spans, at), next]);
  const finishedAt = acting.endOf(claim.crew, at, left);
  return { after: { ...life, leftMinutes: left, finishedAt, spans }, ...reported };
}

/** The work is over: the film's clock, and all that follows, runs from this moment. */
export function finish(life: TaskLife, acting: Acting): Acted {
  const claim = heldBy(life, acting);
  expectStatus(claim, 'working');
  assertNotBefore(acting, openSpan(life)?.start ?? null, 'the work began');
  return { after: over(life, 'done', acting.at, acting), kind: 'task-finished', reason: null };
}

const over = (life: TaskLife, state: 'done' | 'redo', at: string, acting: Acting): TaskLife => ({
  ...life,
  state,
  finishedAt: at,
  leftMinutes: null,
  crew: isHoldPoint(acting) ? life.crew : everAt(life),
  claim: null,
  spans: closed(life.spans, at),
});

/** Wet work given up in the middle: what is laid comes off again, by a rework that follows. */
export function abandon(life: TaskLife, reason: string, acting: Acting): Acted {
  const claim = heldBy(life, acting);
  const { task, at } = acting;
  expectStatus(claim, 'working');
  if (task.material === null) {
    throw new DomainError(
      'claim.state',
      `"${task.name}" lays nothing that would have to come off.`,
      {
        cure: 'Release it, with what is left of it.',
      },
    );
  }
  assertNotBefore(acting, openSpan(life)?.start ?? null, 'the work began');
  return { after: over(life, 'redo', at, acting), kind: 'task-abandoned', reason };
}

/** A film that does not cure, found while it is laid or after: a rework takes it off. */
export function failBatch(life: TaskLife, reason: string, acting: Acting): Acted {
  const { task, at } = acting;
  if (task.material === null) {
    throw new DomainError('claim.state', `"${task.name}" mixes nothing that could fail to cure.`);
  }
  if (life.state !== 'working' && life.state !== 'done') {
    throw new DomainError('claim.state', `Nothing of "${task.name}" is laid: it is ${life.state}.`);
  }
  assertNotBefore(acting, openSpan(life)?.start ?? life.startedAt, 'the work began');
  const after =
    life.state === 'done' ? { ...life, state: 'redo' as const } : over(life, 'redo', at, acting);
  return { after, kind: 'batch-failed', reason };
}

import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { stillOpen } from '#persistence/live/given-up.ts';
import { standing, type Standing } from '#planning/decode/ready/standing.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { YardStates } from '../../platform/database/yard-states.ts';
import type { Ready, ReadyQuery } from './ready.contract.ts';
import { eyesOf, type Eyes } from './ready.eyes.ts';
import { showReady, showWaiting } from './ready.mapper.ts';

@Injectable()
export class ReadyService {
  constructor(
    private readonly database: Database,
    private readonly states: YardStates,
  ) {}

  /** What may be begun now and what waits for what: what the boats need first comes first. */
  async ready(viewer: Viewer, { whose, first, after }: ReadyQuery): Promise<Ready> {
    const state = await this.database.inYard(viewer, (tx) => this.states.at(tx, viewer.yardId));
    const now = new Date();
    const stand = standing({ ...state, stillOpen: stillOpen(state), now: now.toISOString() });
    const eyes = eyesOf(viewer, state, now);
    const wanted = wantedBy(eyes, whose ?? (viewer.roles.includes('foreman') ? 'all' : 'mine'));
    const ready = stand.ready.filter(wanted);
    const waits = stand.waiting.filter(wanted);
    const rest = after === undefined ? waits : beyond(stand, after).filter(wanted);
    const page = rest.slice(0, first);
    return {
      at: now.toISOString(),
      planId: state.planId,
      readyCount: ready.length,
      ready: ready.slice(0, first).flatMap((id) => showReady(stand.task(id), eyes)),
      waitingCount: waits.length,
      waiting: page.flatMap((id) => showWaiting(stand.task(id), eyes)),
      nextCursor: rest.length > first ? cursorOf(page[page.length - 1]) : null,
    };
  }
}

const wantedBy =
  (eyes: Eyes, whose: 'mine' | 'all') =>
  (taskId: string): boolean =>
    whose === 'all' || eyes.isMine(taskId);

const cursorOf = (taskId: string): string => Buffer.from(`w${taskId}`).toString('base64url');

/** What waits beyond a task, wherever that stands by now. */
function beyond(stand: Standing, cursor: string): readonly string[] {
  const text = Buffer.from(cursor, 'base64url').toString();
  const taskId = text.slice(1);
  if (text.startsWith('w') && stand.has(taskId)) return stand.waitingAfter(taskId);
  const wrong = fault('input.field', 'after', 'not a cursor of this list', {
    value: cursor,
    cure: 'Use the nextCursor of the list before, or leave it out.',
  });
  throw new DomainError('input.field', `after: ${wrong.message}`, { faults: [wrong] });
}

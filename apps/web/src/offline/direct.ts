import { api, asked } from '../api/client.ts';
import { asWhom } from './as-whom.ts';
import type { Command } from './deed.ts';
import type { QueuedDeed } from './store.ts';

/** So long an answer is waited for; wireless of a yard comes and goes. */
const answerMs = 12_000;

/** Of a deed that is sent by itself: when it was, when it is told, and under which key. */
function toldOf({ at, key }: QueuedDeed) {
  return {
    times: { at, sentAt: new Date().toISOString() },
    headers: { 'Idempotency-Key': key, ...asWhom() },
    signal: AbortSignal.timeout(answerMs),
  };
}

/** The minute that had begun, as readings have it. */
const wholeMinute = (at: string): string => `${at.slice(0, 16)}:00Z`;

/**
 * Sends a report as the command that it is. It may be sent again: under the same key it is done once,
 * at the moment at which it was. Gives the claim that it made. Throws a `Problem`.
 */
export async function sendDirectly(queued: QueuedDeed): Promise<string | null> {
  const { deed } = queued;
  if (deed.kind !== 'report') throw new Error(`a ${deed.kind} is no report`);
  if (deed.command.kind === 'claim') return claim(queued, deed.command);
  await sendOther(queued, deed.command, deed.claimId);
  return null;
}

async function claim(
  queued: QueuedDeed,
  { taskId, crew }: Extract<Command, { kind: 'claim' }>,
): Promise<string> {
  const { times, headers, signal } = toldOf(queued);
  const { id } = await asked(
    api.POST('/api/v1/yards/{yardId}/tasks/{taskId}/claims', {
      params: { path: { yardId: queued.yardId, taskId } },
      body: { ...given({ crew }), ...times },
      headers,
      signal,
    }),
  );
  return id;
}

async function sendOther(
  queued: QueuedDeed,
  command: Exclude<Command, { kind: 'claim' }>,
  claimId: string | null,
): Promise<void> {
  const { yardId, at } = queued;
  const { times, headers, signal } = toldOf(queued);
  const ofClaim = { params: { path: { yardId, id: claimId ?? '' } }, headers, signal };
  switch (command.kind) {
    case 'join':
      await asked(api.POST('/api/v1/yards/{yardId}/claims/{id}/join', { ...ofClaim, body: times }));
      return;
    case 'leave':
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/leave', { ...ofClaim, body: times }),
      );
      return;
    case 'release':
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/release', {
          ...ofClaim,
          body: { ...given({ leftMinutes: command.leftMinutes }), ...times },
        }),
      );
      return;
    case 'start': {
      const { override } = command;
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/start', {
          ...ofClaim,
          body: { ...given({ override }), ...times },
        }),
      );
      return;
    }
    case 'pause':
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/pause', {
          ...ofClaim,
          body: { ...given({ leftMinutes: command.leftMinutes }), ...times },
        }),
      );
      return;
    case 'resume':
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/resume', { ...ofClaim, body: times }),
      );
      return;
    case 'progress':
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/progress', {
          ...ofClaim,
          body: { leftMinutes: command.leftMinutes, ...times },
        }),
      );
      return;
    case 'finish':
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/finish', { ...ofClaim, body: times }),
      );
      return;
    case 'abandon':
      await asked(
        api.POST('/api/v1/yards/{yardId}/claims/{id}/abandon', {
          ...ofClaim,
          body: { reason: command.reason, ...times },
        }),
      );
      return;
    case 'fail-batch':
      await asked(
        api.POST('/api/v1/yards/{yardId}/tasks/{taskId}/batch-failed', {
          params: { path: { yardId, taskId: command.taskId } },
          body: { reason: command.reason, ...times },
          headers,
          signal,
        }),
      );
      return;
    case 'undo':
      await asked(
        api.POST('/api/v1/yards/{yardId}/tasks/{taskId}/undo', {
          params: { path: { yardId, taskId: command.taskId } },
          body: times,
          headers,
          signal,
        }),
      );
      return;
    case 'reading': {
      const { space, of, celsius, humidity, note } = command;
      await asked(
        api.POST('/api/v1/yards/{yardId}/readings', {
          params: { path: { yardId } },
          body: {
            readings: [{ ...given({ of, humidity, note }), space, celsius, at: wholeMinute(at) }],
            sentAt: times.sentAt,
          },
          headers,
          signal,
        }),
      );
      return;
    }
    case 'tack-test': {
      const { taskId, found, note } = command;
      await asked(
        api.POST('/api/v1/yards/{yardId}/tasks/{taskId}/tack-tests', {
          params: { path: { yardId, taskId } },
          body: { found, ...given({ note }), ...times },
          headers,
          signal,
        }),
      );
      return;
    }
  }
}

/** Without what was left out. */
const given = <T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };

import { setTimeout as sleep } from 'node:timers/promises';
import { randomUUID } from 'node:crypto';
import type { Random } from '#kernel/random.ts';
import type { Hand } from '../../support/crowd.ts';

/** What was asked and what was answered: `claim 409 claim.taken`. */
type Counts = Map<string, number>;

export interface Storm {
  /** Addresses of the api processes; each request goes to one of them. */
  readonly urls: readonly string[];
  readonly yardId: string;
  readonly tasks: readonly string[];
  readonly leaseMs: number;
  readonly until: number;
  readonly draw: Random;
  /** Ids of claims that were acknowledged, by what became of them last. */
  readonly acknowledged: Map<string, string>;
  readonly counts: Counts;
  /** Answers that say neither that it was done nor why not. */
  readonly indefinite: string[];
}

interface Answer {
  readonly status: number;
  readonly code: string | null;
  readonly id: string | null;
}

const text = (value: unknown): string | null => (typeof value === 'string' ? value : null);

const count = (counts: Counts, key: string): void =>
  void counts.set(key, (counts.get(key) ?? 0) + 1);

/** As a phone does where the service is too busy, or nobody answers: the same again under the same key. */
const mostTries = 30;

async function ask(storm: Storm, hand: Hand, what: string, path: string): Promise<Answer> {
  const key = randomUUID();
  for (let tries = 1; ; tries += 1) {
    const answer = await once(storm, hand, path, key);
    if (answer.status >= 500 && tries < mostTries) {
      count(storm.counts, `(tried again after ${String(answer.status)})`);
      await sleep(100 + storm.draw.below(400));
      continue;
    }
    const told = `${what} ${String(answer.status)}${answer.code === null ? '' : ` ${answer.code}`}`;
    count(storm.counts, told);
    const isDefinite = answer.status < 300 || (answer.status < 500 && answer.code !== null);
    if (!isDefinite) storm.indefinite.push(`${told} of ${path}`);
    return answer;
  }
}

async function once(storm: Storm, hand: Hand, path: string, key: string): Promise<Answer> {
  const { urls, yardId, draw } = storm;
  const url = `${urls[draw.below(urls.length)]}/api/v1/yards/${yardId}/${path}`;
  const answer = await fetch(url, {
    method: 'POST',
    headers: {
      authorization: `Bearer ${hand.token}`,
      'content-type': 'application/json',
      'idempotency-key': key,
    },
    body: '{}',
    signal: AbortSignal.timeout(60_000),
  });
  const body = (await answer.json()) as { readonly code?: unknown; readonly id?: unknown };
  const { status } = answer;
  return {
    status,
    code: status < 300 ? null : text(body.code),
    id: status < 300 ? text(body.id) : null,
  };
}

async function act(storm: Storm, hand: Hand, claim: string, verb: string): Promise<boolean> {
  const { status } = await ask(storm, hand, verb, `claims/${claim}/${verb}`);
  if (status < 300) storm.acknowledged.set(claim, verb);
  return status < 300;
}

/** A builder who takes something up, and then gives it back, forgets it, or does it. */
export async function builder(storm: Storm, hand: Hand): Promise<void> {
  const { draw, tasks, acknowledged, until, leaseMs } = storm;
  while (Date.now() < until) {
    const task = tasks[draw.below(tasks.length)];
    await sleep(draw.below(500));
    try {
      const { id } = await ask(storm, hand, 'claim', `tasks/${task}/claims`);
      if (id === null) continue;
      acknowledged.set(id, 'claim');
      await sleep(draw.below(200));
      const chance = draw.unit();
      if (chance < 0.35) await act(storm, hand, id, 'release');
      else if (chance < 0.55) {
        // Forgotten: somebody else takes it, or the builder comes too late.
        await sleep(leaseMs + draw.below(1000));
        if (draw.unit() < 0.5) await act(storm, hand, id, 'start');
      } else if (await act(storm, hand, id, 'start')) {
        await sleep(draw.below(300));
        const isFinished = draw.unit() < 0.06;
        await act(storm, hand, id, isFinished ? 'finish' : 'release');
      }
    } catch (error) {
      storm.indefinite.push(`${task}: ${String(error)}`);
    }
  }
}

/**
 * When it is quiet again the service goes on: one builder at a time takes up what is free, begins
 * it, and ends it or gives it back, however slow the machine was in the storm.
 */
export async function afterwards(storm: Storm, hands: readonly Hand[]): Promise<void> {
  const ended = { finish: 0, release: 0 };
  for (const [k, hand] of hands.entries()) {
    const verb = k % 2 === 0 ? 'finish' : 'release';
    if (ended[verb] > 0) continue;
    for (const task of storm.tasks) {
      const { id } = await ask(storm, hand, 'claim', `tasks/${task}/claims`);
      if (id === null) continue;
      storm.acknowledged.set(id, 'claim');
      if (await act(storm, hand, id, 'start')) {
        if (await act(storm, hand, id, verb)) ended[verb] += 1;
        break;
      }
    }
  }
}

import { setTimeout as sleep } from 'node:timers/promises';
import { listen, type Listening } from './listen.ts';
import {
  followRound,
  type NamedStep,
  type RoundSurroundings,
  StepFailure,
  withoutFailed,
} from './round.ts';

/** Yards of one worker at once. */
const atOnce = 2;
/** Between two rounds of a yard: reports come in bursts, and one round serves them all. */
const restMs = 200;
const firstRetryMs = 1_000;
const longestRetryMs = 60_000;

export interface FollowerOptions extends RoundSurroundings, Pick<Listening, 'databaseUrl' | 'say'> {
  readonly steps: readonly NamedStep[];
}

export interface Follower {
  /** Resolves when the rounds under way have ended. */
  stop(): Promise<void>;
}

/**
 * Follows the logs of all yards. Several workers may: a yard's cursor is one's at a time. Where
 * the database is away it goes on as soon as it is back.
 */
export async function startFollower(options: FollowerOptions): Promise<Follower> {
  const { databaseUrl, prisma, say } = options;
  const rounds = new Rounds(options);
  const tell = (yardId: string): void => rounds.tell(yardId);
  const listening = await listen({ databaseUrl, prisma, tell, say });
  return {
    stop: async () => {
      await Promise.all([rounds.end(), listening.stop()]);
    },
  };
}

/** What is known of a yard in which there is something to follow. */
interface Waiting {
  /** How often it was told of; more since a round began means another one. */
  told: number;
  /** Rounds that failed, one after the other. */
  failures: number;
}

class Rounds {
  readonly #options: FollowerOptions;
  readonly #ending = new AbortController();
  readonly #waiting = new Map<string, Waiting>();
  readonly #queue: string[] = [];
  readonly #running = new Set<Promise<void>>();

  constructor(options: FollowerOptions) {
    this.#options = options;
  }

  tell(yardId: string): void {
    const known = this.#waiting.get(yardId);
    if (known !== undefined) {
      known.told += 1;
      return;
    }
    this.#waiting.set(yardId, { told: 1, failures: 0 });
    this.#queue.push(yardId);
    this.#next();
  }

  async end(): Promise<void> {
    this.#ending.abort();
    await Promise.all(this.#running);
  }

  #next(): void {
    if (this.#ending.signal.aborted || this.#running.size >= atOnce) return;
    const yardId = this.#queue.shift();
    const waiting = yardId === undefined ? undefined : this.#waiting.get(yardId);
    if (yardId === undefined || waiting === undefined) return;
    const round = this.#round(yardId, waiting).finally(() => {
      this.#running.delete(round);
      this.#next();
    });
    this.#running.add(round);
  }

  async #round(yardId: string, waiting: Waiting): Promise<void> {
    const { told } = waiting;
    const begun = Date.now();
    try {
      const ended = await followRound(this.#options, yardId, this.#options.steps);
      waiting.failures = 0;
      // A round that takes long leaves as much time to everybody else.
      if (ended === 'more') this.#again(yardId, 0);
      else if (waiting.told !== told) this.#again(yardId, Math.max(restMs, Date.now() - begun));
      else this.#waiting.delete(yardId);
    } catch (error) {
      await this.#failed(yardId, waiting, error);
    }
  }

  async #failed(yardId: string, waiting: Waiting, error: unknown): Promise<void> {
    const { states, steps, say } = this.#options;
    states.forget(yardId);
    const pauseMs = Math.min(longestRetryMs, firstRetryMs * 2 ** waiting.failures);
    waiting.failures += 1;
    say(`follower: ${yardId}: ${wordsOf(error)}; again in ${String(pauseMs / 1000)} s`);
    if (error instanceof StepFailure) {
      const others = steps.filter(({ name }) => name !== error.step);
      await withoutFailed(this.#options, yardId, others, say);
    }
    this.#again(yardId, pauseMs);
  }

  /** Into the queue after a pause, in which no other yard has to wait for this one. */
  #again(yardId: string, pauseMs: number): void {
    const queue = (): void => {
      this.#queue.push(yardId);
      this.#next();
    };
    const { signal } = this.#ending;
    void sleep(pauseMs, undefined, { signal }).then(queue, () => undefined);
  }
}

/** What a step threw is a fault of ours more often than not: where it was thrown is said too. */
function wordsOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const { cause } = error;
  if (!(error instanceof StepFailure) || !(cause instanceof Error)) return error.message;
  return `${error.step}: ${cause.stack ?? cause.message}`;
}

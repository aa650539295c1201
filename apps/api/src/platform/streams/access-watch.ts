import {
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { Access, type Admission, type Standing } from '../access/access.ts';
import { Notices } from './notices.ts';

/** The database tells it what changed: `session:<id>`, `member:<yard>:<id>`, `key:<id>`, `yard:<id>`. */
const channel = 'curewright_access';
/** How long a stream may outlive a change that nobody told of, an idle end say. */
const recheckMs = 60_000;

interface Watched {
  readonly admission: Admission;
  readonly end: (why: DomainError) => void;
  /** Of the session or the key, as last heard. */
  endsAt: Date | null;
  timer: NodeJS.Timeout | undefined;
}

/** Ends what goes on (a stream, a subscription) when those who opened it may no longer. */
@Injectable()
export class AccessWatch implements OnApplicationBootstrap, OnApplicationShutdown {
  readonly #watched = new Set<Watched>();
  readonly #log = new Logger('streams');

  constructor(
    private readonly access: Access,
    private readonly notices: Notices,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    await this.notices.listen(
      channel,
      (told) => this.#recheck(({ admission }) => admission.notices.includes(told)),
      () => this.#recheck(() => true),
    );
  }

  onApplicationShutdown(): void {
    for (const watched of this.#watched) this.#leave(watched);
  }

  /** Calls `end` at most once, with why; until then it watches, or until it is told to stop. */
  watch(admission: Admission, end: (why: DomainError) => void): () => void {
    const watched: Watched = { admission, end, endsAt: admission.endsAt, timer: undefined };
    this.#watched.add(watched);
    // At once, for what changed between the guard's look and this one was told to nobody here.
    void this.#check(watched);
    return () => this.#leave(watched);
  }

  #recheck(concerns: (watched: Watched) => boolean): void {
    for (const watched of this.#watched) if (concerns(watched)) void this.#check(watched);
  }

  async #check(watched: Watched): Promise<void> {
    const { refusal, endsAt } = await this.#standing(watched);
    if (!this.#watched.has(watched)) return;
    if (refusal === null) {
      watched.endsAt = endsAt;
      this.#wait(watched);
      return;
    }
    this.#leave(watched);
    watched.end(refusal);
  }

  /** A database that does not answer is no reason to end, but the time that the session had is. */
  async #standing({ admission, endsAt }: Watched): Promise<Standing> {
    try {
      return await this.access.standing(admission);
    } catch (error) {
      this.#log.error(error);
      const isOver = endsAt !== null && endsAt <= new Date();
      return { refusal: isOver ? new DomainError('access.sign-in') : null, endsAt };
    }
  }

  #wait(watched: Watched): void {
    clearTimeout(watched.timer);
    const left = (watched.endsAt?.getTime() ?? Infinity) - Date.now();
    const ms = left > 0 ? Math.min(left + 1, recheckMs) : recheckMs;
    watched.timer = setTimeout(() => void this.#check(watched), ms).unref();
  }

  #leave(watched: Watched): void {
    clearTimeout(watched.timer);
    this.#watched.delete(watched);
  }
}

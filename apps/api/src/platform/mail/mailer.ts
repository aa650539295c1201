import { setTimeout as sleep } from 'node:timers/promises';
import { type BeforeApplicationShutdown, Inject, Injectable, Logger } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { type Config, configToken } from '../config/config.ts';
import { type Mail, type Post, postOf } from './post.ts';

/** Between one try and the next, ms. */
const pauses = [1_000, 10_000];

/** Sends mails. What is logged of one that fails is why, never its text: it may hold a link. */
@Injectable()
export class Mailer implements BeforeApplicationShutdown {
  readonly #post: Post;
  readonly #log = new Logger('mail');
  readonly #underWay = new Set<Promise<unknown>>();
  readonly #stopping = new AbortController();

  constructor(@Inject(configToken) config: Config) {
    this.#post = postOf(config);
  }

  /** Tries three times within some ten seconds. Throws `service.unavailable`. */
  async send(mail: Mail): Promise<void> {
    for (const pause of [...pauses, null]) {
      try {
        await this.#post.deliver(mail);
        return;
      } catch (error) {
        if (pause === null || isFinal(error) || this.#stopping.signal.aborted) {
          this.#log.error(`not sent: ${reasonOf(error)}`);
          throw new DomainError('service.unavailable', 'The mail could not be sent.');
        }
        await sleep(pause, undefined, this.#stopping).catch(() => undefined);
      }
    }
  }

  /**
   * Work that ends in a mail and that nobody waits for: the answer then tells nothing of it, not
   * even by its time. What goes wrong is logged as `what`.
   */
  later(what: string, work: () => Promise<void>): void {
    const done = work()
      .catch((error: unknown) => {
        this.#log.error(`${what}: ${reasonOf(error)}`);
      })
      .finally(() => this.#underWay.delete(done));
    this.#underWay.add(done);
  }

  /**
   * Whether the mail has gone out within so many ms; whoever waits learns no more. It goes on being
   * tried after that, and one that fails is logged.
   */
  async sentWithin(ms: number, mail: Mail): Promise<boolean> {
    const known = new AbortController();
    const sent = this.send(mail).then(
      () => true,
      () => false,
    );
    this.#underWay.add(sent);
    void sent.finally(() => this.#underWay.delete(sent));
    const late = sleep(ms, false, { signal: known.signal }).catch(() => false);
    try {
      return await Promise.race([sent, late]);
    } finally {
      known.abort();
    }
  }

  /** While there is a database still. */
  async beforeApplicationShutdown(): Promise<void> {
    this.#stopping.abort();
    await Promise.all(this.#underWay);
    this.#post.close();
  }
}

/** RFC 5321, 4.2.1: a reply of 5yz is not to be tried again as it is. */
function isFinal(error: unknown): boolean {
  return (
    error instanceof Error &&
    'responseCode' in error &&
    typeof error.responseCode === 'number' &&
    error.responseCode >= 500
  );
}

const reasonOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

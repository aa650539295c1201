import { freshKey } from '../api/fresh-key.ts';
import { problemOf } from '../api/problem.ts';
import { same } from './same.ts';

/** What was sent: the values, the key under which the service does it once, and an id for it. */
export interface Sent<T> {
  readonly values: T;
  readonly key: string;
  readonly id: string;
}

type Act<T, R> = (sent: Sent<T>) => Promise<R>;

/** The service has looked at what was sent, and not done it. */
const judged = [400, 409, 412, 422];

/**
 * Sends a form's values. What was not answered may have been done all the same: it is remembered
 * until it is answered, and the same values go again as they went, so that nothing is done twice.
 */
export class Sending<T> {
  #unanswered: Sent<T> | undefined;

  send<R>(values: T, act: Act<T, R>, makeId: () => string = () => ''): Promise<R> {
    const before = this.#unanswered;
    const isSame = before !== undefined && same(before.values, values);
    return this.#do(isSame ? before : { values, key: freshKey(), id: makeId() }, act);
  }

  /** What other values have come to that went before and were not answered; undefined: to nothing. */
  async settle<R>(values: T, act: Act<T, R>): Promise<R | undefined> {
    const before = this.#unanswered;
    if (before === undefined || same(before.values, values)) return undefined;
    try {
      return await this.#do(before, act);
    } catch (error) {
      if (this.#unanswered !== undefined) throw error;
      return undefined;
    }
  }

  async #do<R>(sent: Sent<T>, act: Act<T, R>): Promise<R> {
    this.#unanswered = sent;
    try {
      const answer = await act(sent);
      this.#unanswered = undefined;
      return answer;
    } catch (error) {
      if (judged.includes(problemOf(error).status)) this.#unanswered = undefined;
      throw error;
    }
  }
}

import { DomainError } from '#kernel/error.ts';
import { sourceOf } from './source.ts';

/** Of one address: a yard of twenty, each with a few pages open. */
const most = 100;

/** Sockets and streams of events that are open at the moment; each holds memory until it ends. */
export class OpenStreams {
  readonly #open = new Map<string, number>();

  /** Counts one more; what is returned is to be called when it ends. Throws `input.limit`. */
  open(address: string): () => void {
    const place = sourceOf(address);
    const before = this.#open.get(place) ?? 0;
    if (before >= most) {
      throw new DomainError('input.limit', `${String(most)} streams of your address are open.`, {
        cure: 'Close one that is not needed.',
      });
    }
    this.#open.set(place, before + 1);
    let isOpen = true;
    return () => {
      if (isOpen) this.#close(place);
      isOpen = false;
    };
  }

  #close(place: string): void {
    const left = (this.#open.get(place) ?? 0) - 1;
    if (left > 0) this.#open.set(place, left);
    else this.#open.delete(place);
  }
}

import { Worker } from 'node:worker_threads';
import { limitsOf } from '#host/threads/memory.ts';
import type { Answer, Order } from './worker.ts';

/** Worker threads that each take the next order when free; answers are handed out in order. */
export class Pool {
  private readonly workers: Worker[] = [];
  private readonly orders: readonly Order[];
  private readonly answers: (Answer | undefined)[];
  private given = 0;
  private handedOut = 0;

  constructor(orders: readonly Order[]) {
    this.orders = orders;
    this.answers = orders.map(() => undefined);
  }

  /** Resolves when every answer went to `take`; rejects if a worker fails. */
  async run(atOnce: number, take: (answer: Answer, k: number) => void): Promise<void> {
    const count = Math.min(atOnce, this.orders.length);
    try {
      await Promise.all(Array.from({ length: count }, () => this.serve(take)));
    } finally {
      await this.stop();
    }
  }

  /** Ends all workers, also in mid-search. */
  async stop(): Promise<void> {
    await Promise.all(this.workers.splice(0).map((worker) => worker.terminate()));
  }

  private serve(take: (answer: Answer, k: number) => void): Promise<void> {
    const worker = new Worker(
      new URL('./worker.ts', import.meta.url),
      limitsOf(this.orders[0].memoryMB),
    );
    this.workers.push(worker);
    return new Promise((resolve, reject) => {
      let current = -1;
      const next = (): void => {
        if (this.given === this.orders.length) {
          resolve();
          return;
        }
        current = this.given++;
        worker.postMessage(this.orders[current]);
      };
      worker.on('message', (answer: Answer) => {
        this.answers[current] = answer;
        this.handOut(take);
        next();
      });
      worker.on('error', reject);
      next();
    });
  }

  private handOut(take: (answer: Answer, k: number) => void): void {
    for (; this.handedOut < this.answers.length; this.handedOut++) {
      const answer = this.answers[this.handedOut];
      if (answer === undefined) return;
      take(answer, this.handedOut);
    }
  }
}

import { setTimeout as sleep } from 'node:timers/promises';

/** Asks again and again, and throws after `ms` without a yes; a refusal of the question is no yes. */
export async function until(isSo: () => Promise<boolean>, ms = 20_000): Promise<void> {
  const deadline = Date.now() + ms;
  for (;;) {
    if (await isSo()) return;
    if (Date.now() > deadline)
      throw new Error(`it was not so within ${String(ms)} ms: ${String(isSo)}`);
    await sleep(50);
  }
}

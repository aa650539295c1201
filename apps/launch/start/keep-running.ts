import { setTimeout as sleep } from 'node:timers/promises';
import { type Child, lastWords, type Program, startChild } from './child.ts';

const firstPauseMs = 500;
const longestPauseMs = 30_000;
/** One that lived so long had a good start: the next pause is short again. */
const goodLifeMs = 60_000;

/**
 * Runs the program until `stopping`, starting it again whenever it ends by itself, each time
 * after a longer pause. Resolves when it is stopped and gone.
 */
export async function keepRunning(
  program: Program,
  stopping: AbortSignal,
  say: (line: string) => void,
  patienceMs: number,
): Promise<void> {
  let pause = firstPauseMs;
  let child: Child | undefined;
  const stopped = new Promise<void>((resolve) => {
    stopping.addEventListener('abort', () => resolve(), { once: true });
  });
  for (let first = true; !stopping.aborted; first = false) {
    const begun = Date.now();
    child = startChild(program, first ? 'w' : 'a');
    const how = await Promise.race([child.ended, stopped]);
    if (how === undefined) break;
    if (Date.now() - begun > goodLifeMs) pause = firstPauseMs;
    say(`${program.name} ended by itself (${how}); it is started again. Its last words:`);
    say(await lastWords(program.logFile));
    await sleep(pause, undefined, { signal: stopping }).catch(() => undefined);
    pause = Math.min(longestPauseMs, pause * 2);
  }
  await child?.stop(patienceMs);
}

import { readConfig } from './config.ts';
import { startWorker } from './worker.ts';

/** `node apps/worker/src/main.ts [--threads K] [--memory MB]`: works through the plan runs until SIGTERM or SIGINT. */
const say = (line: string): void => {
  process.stdout.write(`worker: ${line}\n`);
};

try {
  const worker = await startWorker({ ...readConfig(process.env, process.argv.slice(2)), say });
  say('ready');
  const end = (): void => {
    worker.stop().catch((error: unknown) => {
      say(String(error));
      process.exitCode = 1;
    });
  };
  process.once('SIGTERM', end);
  process.once('SIGINT', end);
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}

/**
 * `npm start`: database, migrations, api and worker; in an empty database the demo yard and its
 * first plan. Ends them all, in the right order, on SIGINT, SIGTERM or SIGHUP.
 */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { lastWords, startChild } from './start/child.ts';
import { openDatabase } from './start/database.ts';
import { keepRunning } from './start/keep-running.ts';
import { claimPort } from './start/port.ts';
import { prepareDemo } from './start/prepare-demo.ts';
import { keptSecretKey } from './start/secret-key.ts';
import { readSettings, type Settings, usage } from './start/settings.ts';
import { healthy } from './start/service.ts';
import { addressWords } from './start/words.ts';

const root = new URL('../../', import.meta.url);
const fileOf = (path: string): string => fileURLToPath(new URL(path, root));

/** A worker gives its runs back within eight seconds; nothing of ours takes longer. */
const patienceMs = 10_000;

const say = (...lines: readonly string[]): void => {
  process.stdout.write(`${lines.join('\n')}\n`);
};

type Close = () => Promise<void>;

/** Runs until `stopping`; whatever has to be ended is put on `closing`, in the order of its start. */
async function run(
  settings: Settings,
  { signal }: AbortController,
  closing: Close[],
): Promise<void> {
  const { host, folder, mailFolder, photoFolder } = settings;
  await mkdir(folder, { recursive: true });
  const key = settings.hasSecretKey ? {} : { SECRET_KEY: await keptSecretKey(folder) };
  const port = await claimPort(host, settings.port);

  const unlessStopped = racing(signal);
  const database = await openDatabase(settings);
  closing.push(database.stop);
  await unlessStopped(database.migrate());
  say(database.words);
  const { serviceUrl } = database;

  const url = `http://${nameOf(host)}:${String(port)}`;
  const env = { ...process.env, DATABASE_URL: serviceUrl, MIGRATE_DATABASE_URL: undefined };
  const showDemo = await unlessStopped(prepareDemo(settings, serviceUrl));

  const logFile = join(folder, 'api.log');
  const hook = new URL('apps/launch/ts-hook.mjs', root).href;
  const api = startChild({
    name: 'api',
    args: ['--enable-source-maps', '--import', hook, fileOf('apps/api/src/main.ts')],
    env: {
      ...env,
      ...key,
      HOST: host,
      PORT: String(port),
      MAIL_FOLDER: mailFolder,
      PHOTO_FOLDER: photoFolder,
    },
    logFile,
  });
  const worker = keepRunning(
    {
      name: 'worker',
      args: [fileOf('apps/worker/src/main.ts')],
      // It mails nothing.
      env: { ...env, ...key, SMTP_URL: undefined },
      logFile: join(folder, 'worker.log'),
    },
    signal,
    say,
    patienceMs,
  );
  closing.push(async () => {
    await Promise.all([api.stop(patienceMs), worker]);
  });
  // Resolves when all is to stop; rejects where the api does so by itself.
  const end = endOf(api.ended, logFile, signal);
  end.catch(() => undefined);

  await Promise.race([healthy(url, signal), end]);
  signal.throwIfAborted();
  say('', ...addressWords(url));
  await Promise.race([showDemo(url, signal, say), end]);
  signal.throwIfAborted();
  say('', 'Ctrl-C stops it; the data stays.');
  await end;
}

function nameOf(host: string): string {
  if (['127.0.0.1', '0.0.0.0', '::'].includes(host)) return 'localhost';
  return host.includes(':') ? `[${host}]` : host;
}

/** Waits for the work, but no longer than until the signal: then it throws, and the work is left to fail. */
function racing(signal: AbortSignal): <T>(work: Promise<T>) => Promise<T> {
  const stopped = new Promise<never>((_, reject) => {
    signal.addEventListener('abort', () => reject(new Error('stopped')), { once: true });
  });
  stopped.catch(() => undefined);
  return (work) => {
    signal.throwIfAborted();
    return Promise.race([work, stopped]);
  };
}

async function endOf(ended: Promise<string>, logFile: string, signal: AbortSignal): Promise<void> {
  const stopped = new Promise<undefined>((resolve) => {
    if (signal.aborted) resolve(undefined);
    signal.addEventListener('abort', () => resolve(undefined), { once: true });
  });
  const how = await Promise.race([ended, stopped]);
  if (how === undefined || signal.aborted) return;
  throw new Error(`The api ended by itself (${how}). Its last words:\n${await lastWords(logFile)}`);
}

async function main(): Promise<number> {
  const stopping = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      if (!stopping.signal.aborted) say('', 'Stopping ...');
      stopping.abort();
    });
  }
  const closing: Close[] = [];
  let code = 0;
  try {
    const settings = readSettings(process.argv.slice(2), process.env);
    if (settings === 'help') say(usage);
    else await run(settings, stopping, closing);
  } catch (error) {
    if (!stopping.signal.aborted) {
      process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
      code = 1;
    }
  }
  stopping.abort();
  // What was given up half-way (a migration, say) loses its connections now, and says so in vain.
  process.on('uncaughtException', () => undefined);
  for (const close of closing.reverse()) {
    await close().catch((error: unknown) => {
      process.stderr.write(`${String(error)}\n`);
      code = 1;
    });
  }
  return code;
}

// What was given up half-way must not hold the end back.
process.exit(await main());

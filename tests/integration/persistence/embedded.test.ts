import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmod, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { attachEmbedded } from '#persistence/embedded/attach.ts';
import { alive, freePort } from '#persistence/embedded/server.ts';
import { startEmbedded } from '#persistence/embedded/start.ts';
import { startThrowAway } from '#persistence/embedded/throw-away.ts';
import { withClient } from '#persistence/roles.ts';

const program = fileURLToPath(new URL('../../support/hold-database.ts', import.meta.url));

let folder = '';
let children: ChildProcess[] = [];

// One folder for all, since making a cluster is the slow part; each test leaves it at rest.
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'curewright-embedded-'));
  await (await startEmbedded({ folder, stopOnSignal: false })).stop();
});

afterAll(() => rm(folder, { recursive: true, force: true }));

afterEach(async () => {
  for (const child of children) child.kill('SIGKILL');
  children = [];
  const left = await postmaster();
  if (left !== null) process.kill(left, 'SIGKILL');
});

/** The server process that the folder's pid file names, if it runs. */
async function postmaster(): Promise<number | null> {
  const text = await readFile(join(folder, 'data', 'postmaster.pid'), 'utf8').catch(() => '');
  const pid = Number(text.split('\n')[0]);
  return pid > 0 && alive(pid) ? pid : null;
}

interface Held {
  readonly child: ChildProcess;
  readonly port: number;
}

async function hold(where = folder): Promise<Held> {
  const child = spawn(process.execPath, [program, where], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  children.push(child);
  const [line] = (await once(createInterface({ input: child.stdout }), 'line')) as [string];
  return { child, ...(JSON.parse(line) as { port: number }) };
}

describe('the embedded server', () => {
  it('keeps data, port and passwords over a second start, in UTC and UTF-8, on the loopback only', async () => {
    const first = await startEmbedded({ folder, stopOnSignal: false });
    await withClient(first.ownerUrl, async (owner) => {
      await owner.query("CREATE TABLE kept AS SELECT 'Žižkov'::text AS word");
    });
    await first.stop();
    expect(await postmaster()).toBeNull();
    await first.stop();

    const second = await startEmbedded({ folder, stopOnSignal: false });
    try {
      expect([second.port, second.ownerUrl]).toEqual([first.port, first.ownerUrl]);
      const settings = await withClient(second.ownerUrl, async (owner) => {
        expect((await owner.query('SELECT word FROM kept')).rows).toEqual([{ word: 'Žižkov' }]);
        const shown = await owner.query<Record<string, string>>(
          `SELECT current_setting('TimeZone') AS zone, current_setting('server_encoding') AS encoding,
                  current_setting('listen_addresses') AS address,
                  current_setting('server_version_num')::int / 10000 AS version`,
        );
        return shown.rows;
      });
      expect(settings).toEqual([
        { zone: 'UTC', encoding: 'UTF8', address: '127.0.0.1', version: 18 },
      ]);
      const { mode } = await stat(join(folder, 'secrets.json'));
      expect(mode & 0o777).toBe(0o600);
    } finally {
      await second.stop();
    }
  });

  it.each(['SIGINT', 'SIGTERM'] as const)(
    'ends with its program on %s, and is not shared meanwhile',
    async (signal) => {
      const { child } = await hold();
      await expect(startEmbedded({ folder })).rejects.toThrow('in use');
      const server = await postmaster();
      expect(server).not.toBeNull();
      child.kill(signal);
      const [code, by] = (await once(child, 'exit')) as [number | null, string | null];
      expect([code, by]).toEqual([null, signal]);
      expect(await postmaster()).toBeNull();
    },
  );

  it('that a killed program left behind is taken over', async () => {
    const { child, port } = await hold();
    const left = await postmaster();
    child.kill('SIGKILL');
    await once(child, 'exit');
    expect(await postmaster()).toBe(left);
    const server = await startEmbedded({ folder, stopOnSignal: false });
    expect([server.port, await postmaster()]).toEqual([port, left]);
    await server.stop();
    expect(await postmaster()).toBeNull();
  });

  it('is there for a command beside it, which starts one only where none runs', async () => {
    const works = (url: string): Promise<number | null> =>
      withClient(url, async (client) => (await client.query('SELECT 1')).rowCount);
    const { child, port } = await hold();
    const running = await postmaster();
    const beside = await attachEmbedded(folder);
    expect(new URL(beside.ownerUrl).port).toBe(String(port));
    expect([await works(beside.ownerUrl), await works(beside.serviceUrl)]).toEqual([1, 1]);
    await beside.stop();
    expect(await postmaster()).toBe(running);
    child.kill('SIGTERM');
    await once(child, 'exit');

    const alone = await attachEmbedded(folder);
    expect(await works(alone.ownerUrl)).toBe(1);
    await alone.stop();
    expect(await postmaster()).toBeNull();
    const nowhere = join(folder, 'nowhere');
    await expect(attachEmbedded(nowhere)).rejects.toThrow(`There is no database in ${nowhere}.`);
  });

  it.runIf(process.getuid?.() === 0)('starts on a copy that root made', async () => {
    const copy = await mkdtemp(join(tmpdir(), 'curewright-copy-'));
    try {
      execFileSync('cp', ['-r', `${folder}/.`, copy]);
      expect((await stat(join(copy, 'data'))).uid).toBe(0);
      const server = await startEmbedded({ folder: copy, stopOnSignal: false });
      await server.stop();
    } finally {
      await rm(copy, { recursive: true, force: true });
    }
  });

  it('starts over a pid file whose number is another process by now', async () => {
    const first = await startEmbedded({ folder, stopOnSignal: false });
    await first.stop();
    const stale = join(folder, 'data', 'postmaster.pid');
    await writeFile(
      stale,
      `${String(process.pid)}\n${folder}/data\n1\n${String(first.port)}\n\n127.0.0.1\n`,
    );
    await chmod(stale, 0o644);
    const second = await startEmbedded({ folder, stopOnSignal: false });
    expect(
      await withClient(
        second.serviceUrl,
        async (client) => (await client.query('SELECT 1')).rowCount,
      ),
    ).toBe(1);
    await second.stop();
  });
});

describe('a throw-away server', () => {
  it('whose program was killed is cleared up by the next one', async () => {
    const folders = async (pid: number | undefined): Promise<string[]> =>
      (await readdir(tmpdir())).filter((name) =>
        name.startsWith(`curewright-database-${String(pid)}-`),
      );
    const { child, port } = await hold('throw-away');
    child.kill('SIGKILL');
    await once(child, 'exit');
    expect(await folders(child.pid)).toHaveLength(1);
    const next = await startThrowAway();
    expect(await folders(process.pid)).toHaveLength(1);
    await next.stop();
    expect([await folders(child.pid), await folders(process.pid)]).toEqual([[], []]);
    await expect.poll(() => freePort(port), { timeout: 10_000 }).toBe(port);
  }, 90_000);
});

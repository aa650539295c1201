import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';

const command = new URL('solve.ts', import.meta.url).pathname;
const fixtures = new URL('../../tests/reference/fixtures', import.meta.url).pathname;

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command as npm does, called from the folder of the fixtures. */
function solve(...words: string[]): Promise<Ended> {
  return new Promise((resolve) => {
    const options = { env: { ...process.env, INIT_CWD: fixtures }, cwd: tmpdir() };
    const child = execFile(process.execPath, [command, ...words], options, (_, out, err) => {
      resolve({ code: child.exitCode, out, err });
    });
  });
}

const parsed = (out: string): unknown[] =>
  out
    .trim()
    .split('\n')
    .map((line): unknown => JSON.parse(line));

describe('what it prints', () => {
  it(
    'one JSON line a file, in the order given, whatever the threads',
    { timeout: 60_000 },
    async () => {
      const { code, out, err } = await solve(
        'small.sm',
        'no-plan.sch',
        'window.sch',
        '--json',
        '--threads',
        '3',
        '--memory',
        '512',
      );
      expect([code, err]).toEqual([0, '']);
      const seconds: unknown = expect.any(Number);
      expect(parsed(out)).toEqual([
        { file: 'small.sm', status: 'optimal', makespan: 14, bound: 14, seconds, toBest: seconds },
        {
          file: 'no-plan.sch',
          status: 'infeasible',
          makespan: null,
          bound: 0,
          seconds,
          toBest: null,
        },
        { file: 'window.sch', status: 'optimal', makespan: 9, bound: 9, seconds, toBest: seconds },
      ]);
      for (const line of out.trim().split('\n')) {
        expect(Object.keys(JSON.parse(line) as object)).toEqual([
          'file',
          'status',
          'makespan',
          'bound',
          'seconds',
          'toBest',
        ]);
      }
    },
  );

  it('a folder as its files, of every kind that can be read', { timeout: 60_000 }, async () => {
    const { code, out, err } = await solve('.', '--json', '--iterations', '2000');
    expect([code, err]).toEqual([0, '']);
    // Makespans by trying every schedule (tests/reference/formats.test.ts); no-plan.sch has none.
    expect(
      z
        .array(z.object({ file: z.string(), status: z.string(), makespan: z.int().nullable() }))
        .parse(parsed(out))
        .map(({ file, status, makespan }) => [file, status, makespan]),
    ).toEqual([
      ['calendars.sch', 'optimal', 6],
      ['elapsed.json', 'optimal', 8],
      ['mastery.dzn', 'optimal', 5],
      ['no-plan.sch', 'infeasible', null],
      ['options.dzn', 'optimal', 6],
      ['skills.dzn', 'optimal', 5],
      ['small.sm', 'optimal', 14],
      ['window.sch', 'optimal', 9],
      ['working.json', 'optimal', 8],
    ]);
  });

  it('aligned lines for people', async () => {
    const { code, out } = await solve('small.sm', 'no-plan.sch', '--iterations', '500');
    expect(code).toBe(0);
    const lines = out.trimEnd().split('\n');
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatch(
      /^small\.sm +optimal +makespan +14 +bound +14 +[\d.]+ s +best after +[\d.]+ s$/,
    );
    expect(lines[1]).toMatch(/^no-plan\.sch +infeasible +makespan +- /);
    expect(lines[0].indexOf('makespan')).toBe(lines[1].indexOf('makespan'));
  });
});

describe('what it refuses, with exit code 2', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'solve-'));
    writeFileSync(join(folder, 'broken.sch'), '2 1 0 0\n0 1 x\n');
    writeFileSync(join(folder, 'plan.txt'), '');
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it.each([
    ['no file', [], /FILE is missing: name/],
    ['a missing file', ['nowhere.sm'], /"nowhere\.sm" cannot be read: name a file that exists/],
    [
      'another kind of file',
      ['plan.txt'],
      /"plan\.txt" is none of \.sm, \.sch, \.dzn or \.json: name/,
    ],
    ['an unknown option', ['small.sm', '--fast'], /'--fast'[^]*Usage: /],
    ['no time', ['small.sm', '--seconds', '0'], /--seconds "0" is no time: give/],
    [
      'half an iteration',
      ['small.sm', '--iterations', '0.5'],
      /--iterations "0\.5" is not possible: give/,
    ],
    ['no threads', ['small.sm', '--threads', '0'], /--threads "0" is not possible: give/],
    [
      'more files at once than threads',
      ['small.sm', 'window.sch', '--threads', '2', '--at-once', '3'],
      /--at-once "3" is not possible: give a whole number from 1 to 2/,
    ],
    [
      'hardly any memory',
      ['small.sm', '--memory', '10'],
      /--memory "10" is not possible: give a whole number from 64 to 1048576/,
    ],
    ['a word for a seed', ['small.sm', '--seed', 'x'], /--seed "x" is not possible: give/],
    [
      'both limits',
      ['small.sm', '--seconds', '1', '--iterations', '5'],
      /exclude each other: give one/,
    ],
  ])('%s', async (_, words, message) => {
    const { code, out, err } = await solve(...words);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });

  it('a malformed file, after solving the others', async () => {
    const { code, out, err } = await solve(join(folder, 'broken.sch'), 'small.sm', '--json');
    expect(code).toBe(2);
    expect(parsed(out)).toMatchObject([{ file: 'small.sm', status: 'optimal' }]);
    expect(err).toMatch(
      /broken\.sch: broken\.sch:2: the file has 2 rows instead of 10\. Give the counts/,
    );
  });
});

describe('stopping', () => {
  it(
    'Ctrl-C ends a running search at once, with what is finished printed',
    { timeout: 60_000 },
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'solve-'));
      const slow = join(folder, 'slow.sch');
      writeFileSync(slow, unprovable(60));
      const words = [command, join(fixtures, 'small.sm'), slow, '--seconds', '600', '--json'];
      const child = spawn(process.execPath, words, { stdio: ['ignore', 'pipe', 'inherit'] });
      const [first] = (await once(child.stdout, 'data')) as [Buffer];
      expect(parsed(String(first))).toMatchObject([{ status: 'optimal' }]);
      const since = performance.now();
      child.kill('SIGINT');
      const [code] = (await once(child, 'exit')) as [number | null];
      expect(code).toBe(130);
      expect(performance.now() - since).toBeLessThan(10_000);
      rmSync(folder, { recursive: true });
    },
  );
});

/** Many alike jobs of which two fit at a time and not quite: no proof in any reasonable time. */
function unprovable(count: number): string {
  const ids = Array.from({ length: count }, (_, i) => i + 1);
  return [
    `${count} 1 0 0`,
    `0 1 ${count} ${ids.join(' ')} ${ids.map(() => '[0]').join(' ')}`,
    ...ids.map((i) => `${i} 1 1 ${count + 1} [${5 + (i % 7)}]`),
    `${count + 1} 1 0`,
    '0 1 0 0',
    ...ids.map((i) => `${i} 1 ${5 + (i % 7)} ${2 + (i % 3)}`),
    `${count + 1} 1 0 0`,
    '7',
    '',
  ].join('\n');
}

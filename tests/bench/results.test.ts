import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { quantile, short } from './bench.ts';
import { machineOf } from './machine.ts';
import { Progress } from './progress.ts';
import { preferred, type Report } from './report.ts';
import { resultsPage } from './results.ts';
import { mixed, sliceOf } from './slice.ts';
import { exponent } from './speed/growth.ts';

const report: Report = {
  bench: 'one',
  about: 'what it measures',
  command: 'npm run bench -- --only one',
  done: 3,
  of: 3,
  engine: 'e1',
  commits: 'abc',
  from: '2026-01-01T10:00:00.000Z',
  to: '2026-01-01T10:05:00.000Z',
  most: null,
  machine: { cores: 2, processor: 'p', memory: 8, node: 'v24' },
  figures: [
    { what: 'plain', value: 7 },
    { what: 'good', value: 1, target: 'at most 2', met: true },
    { what: 'bad', value: 'a|b', target: '0', met: false },
  ],
  table: { head: ['x'], lines: [['y']] },
};

describe('the results page', () => {
  const page = resultsPage([report], new Map([['one', 'e1']]));

  it('marks misses, and says when, where and how', () => {
    expect(page).toContain('| one | complete | abc | 2026-01-01 | 1 | **1** |');
    expect(page).toContain('| bad | a\\|b | 0 | **missed** |');
    expect(page).toContain('| good | 1 | at most 2 | met |');
    expect(page).toContain('| plain | 7 |  |  |');
    expect(page).toContain('Machine: 2 cores (p), 8 GiB, Node v24');
    expect(page).toContain('`npm run bench -- --only one`');
    expect(page).toContain("Limit: the bench's own");
    expect(page).not.toContain('changed since');
  });

  it('says where a run is partial, short or of another engine', () => {
    const short = { ...report, done: 2, most: 5 };
    const other = resultsPage([short], new Map([['one', 'e2']]));
    expect(other).toContain('**partial**: 2 of 3');
    expect(other).toContain('**5 s** a solve at the most');
    expect(other).toContain('(the engine has changed since)');
  });
});

describe('of two runs', () => {
  const partial = { ...report, done: 1, to: '2026-01-03' };
  const later = { ...report, to: '2026-01-02' };

  it('the complete one is shown, else the fuller, else the later', () => {
    expect(preferred(undefined, partial)).toBe(partial);
    expect(preferred(report, partial)).toBe(report);
    expect(preferred(partial, report)).toBe(report);
    expect(preferred(report, later)).toBe(later);
    const fuller = { ...report, done: 2 };
    expect(preferred(partial, fuller)).toBe(fuller);
    expect(preferred(report, { ...later, most: 1 })).toBe(report);
  });

  it('one of the present engine is shown, where it is more than a beginning', () => {
    const now = { ...partial, engine: 'e2' };
    expect(preferred(report, now, 'e2')).toBe(now);
    expect(preferred(now, report, 'e2')).toBe(now);
    expect(preferred(report, { ...now, of: 100 }, 'e2')).toBe(report);
  });
});

describe('the rows of a run in pieces', () => {
  const place = mkdtempSync(join(tmpdir(), 'bench-'));
  afterAll(() => {
    rmSync(place, { recursive: true });
  });
  const plain = { fresh: false, keep: false, most: null, measures: [] };
  const open = (options = {}): Progress => new Progress('x', { ...plain, ...options }, place);
  const file = join(place, 'x.jsonl');
  const change = (key = 'engine'): void => {
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replaceAll(new RegExp(`"${key}":"[^"]*"`, 'g'), `"${key}":"e"`));
  };

  it('stay for the same engine and limit, and a line cut off does not count', () => {
    open().add('a', { value: 1 });
    open().add('b', { value: 2 });
    writeFileSync(file, '{"unit":"c","ro', { flag: 'a' });
    expect([...open().rows.keys()]).toEqual(['a', 'b']);
    expect(open().made).toHaveLength(1);
  });

  it('go with another engine unless kept, with another limit, and when asked', () => {
    change();
    const kept = open({ keep: true });
    expect([...kept.rows.keys()]).toEqual(['a', 'b']);
    expect(kept.made).toHaveLength(2);
    change('node');
    const moved = open({ keep: true });
    expect(moved.made).toHaveLength(3);
    expect(machineOf(moved.made.map(({ machine }) => machine)).node).toBe(
      `e and ${process.version}`,
    );
    change();
    expect(open().rows.size).toBe(0);
    open().add('a', { value: 1 });
    expect(open({ most: 5, keep: true }).rows.size).toBe(0);
    open({ most: 5 }).add('a', { value: 1 });
    expect(open({ most: 5, fresh: true }).rows.size).toBe(0);
  });
});

describe('figures', () => {
  it('are quantiles, slices and exponents', () => {
    expect(quantile([3, 1, 2], 0.5)).toBe(2);
    expect(quantile([], 0.5)).toBeNaN();
    expect(short(12345)).toBe(12300);
    const all = [1, 2, 3, 4, 5, 6, 7];
    expect([1, 2, 3].flatMap((k) => sliceOf(all, { k, n: 3 }))).toEqual(all);
    expect(sliceOf(all, { k: 2, n: 3 })).toEqual([3, 4, 5]);
    for (const length of [0, 1, 2, 25, 60, 480]) {
      const given = Array.from({ length }, (_, k) => k);
      const order = mixed(given);
      expect(order.toSorted((a, b) => a - b)).toEqual(given);
      // Of any tenth, each third of all gives a share.
      const part = sliceOf(order, { k: 2, n: 10 });
      if (length >= 60) expect(new Set(part.map((k) => Math.floor((3 * k) / length))).size).toBe(3);
    }
    const points = [1, 2, 4, 8].map((x) => [x, 5 * x ** 1.5] as const);
    expect(exponent(points)).toBeCloseTo(1.5, 10);
  });
});

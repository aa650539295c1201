import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import type { Shortening } from '#planning/decode/explain/what-shortens.ts';
import type { SheetBoat } from '#planning/decode/sheet.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { UsageError } from '../words.ts';
import { readArguments } from './arguments.ts';
import { parseJson } from './read-json.ts';
import { findingLines, shorteningLines, warningLines, type PlanFile } from './report.ts';
import { boatsAsked } from './shorten.ts';

const folder = mkdtempSync(join(tmpdir(), 'plan-'));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const program = new URL('../plan.ts', import.meta.url).pathname;
const seed = (name: string): string =>
  new URL(`../../../seeds/${name}.json`, import.meta.url).pathname;

/** Runs the command as npm does: called from `folder`, run elsewhere. */
function plan(...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    encoding: 'utf8',
    env: { ...process.env, INIT_CWD: folder },
  });
  return { status, stdout, stderr };
}

function file(name: string, text: string): string {
  writeFileSync(join(folder, name), text);
  return name;
}

/** The yard of one, changed, as a file. */
function changed(name: string, change: (yard: Yard) => void): string {
  const yard = readYard(JSON.parse(readFileSync(seed('yard-of-one'), 'utf8')), name);
  change(yard);
  return file(name, JSON.stringify(yard));
}

describe('npm run plan', { timeout: 60_000 }, () => {
  it('prints a plan, and writes it where it is told from where it was called', () => {
    const { status, stdout, stderr } = plan(
      seed('demo-yard'),
      '--iterations',
      '32',
      '--seed',
      '3',
      '--out',
      'plan.json',
    );
    expect(stderr).toBe('');
    expect(status).toBe(0);
    for (const part of [
      'promised Fri 18 Dec 16:00, planned',
      'binding chain',
      'Week of 2026-11-30, by builder',
      'bond window',
      'over by',
      'Mix sheets (grams on the scales',
      'Shopping list',
      'Never thin or rinse peroxide catalyst with acetone',
      'a competent person come first',
      'first plan after',
    ]) {
      expect(stdout).toContain(part);
    }
    const written = JSON.parse(readFileSync(join(folder, 'plan.json'), 'utf8')) as Record<
      string,
      unknown
    >;
    expect(written).toMatchObject({
      format: 'curewright-plan',
      version: 1,
      seed: 3,
      iterations: 32,
      sheet: { yardId: 'demo-yard' },
    });
  });

  it('gives the same plan for the same seed and iterations, as JSON', () => {
    const words = [seed('yard-of-one'), '--iterations', '64', '--json'];
    const first = plan(...words);
    expect(first.status).toBe(0);
    expect(plan(...words).stdout).toBe(first.stdout);
    expect(JSON.parse(first.stdout)).toMatchObject({ sheet: { boats: [{ boat: 'Wren' }] } });
  });

  it('refuses a malformed file with line and column', () => {
    const { status, stderr } = plan(
      file('broken.json', '{\n  "format": "curewright-yard",\n  "version" 1\n}\n'),
    );
    expect(status).toBe(2);
    expect(stderr).toBe(
      'broken.json, line 3, column 13: this is not JSON: "1" cannot stand here\n  cure: Correct the file there: a comma, quote or bracket is missing or too many.\n',
    );
  });

  it('refuses bad input with file, path, value and cure, all at once', () => {
    const name = changed('wrong.json', (yard) => {
      yard.boats[0].refits[0].promised = '2026-11-01T12:00:00Z';
      yard.procedures[0].steps[0].skill = 'welding';
    });
    const { status, stdout, stderr } = plan(name);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toBe(
      [
        'wrong.json: procedures[0].steps[0].skill: there is no skill "welding"; there are: joinery, laminating, fairing, finishing',
        '  found: "welding"',
        '  cure: Use the id of a skill that the yard has, or add the skill.',
        'wrong.json: boats[0].refits[0].promised: Wren, winter list is promised for 2026-11-01T12:00:00Z, but only released on 2026-11-30T18:00:00Z',
        '  found: "2026-11-01T12:00:00Z"',
        '  cure: Move the promised date after the release.',
        '',
      ].join('\n'),
    );
  });

  it('prints the mix sheet of a coat as it is checked by hand, and as many weeks as asked for', () => {
    const { status, stdout } = plan(
      ...[seed('yard-of-one'), '--iterations', '8', '--weeks', '2', '--mix-days', '9'],
    );
    expect(status).toBe(0);
    // The finish coat of the cockpit lid: 0.6 m² × 300 g/m² = 180 g, and 35 % more is 243 g. With
    // 1.8 g of hardener to 100 g of resin, 243 / 1.018 = 238.7 g of resin and 4.3 g of hardener,
    // which at 1.17 kg/l is 3.7 ml. One cup, without a lap.
    const coat = stdout.slice(stdout.indexOf('Mix sheets'));
    const sheet = coat.slice(coat.indexOf('  Spray the finish coat, Cockpit lid of Wren'));
    const lines = sheet.split('\n');
    expect(lines[1]).toMatch(
      /^ {4}Demo finish coat, with wax \(invented\) at .* 1\.8 % of the resin/,
    );
    expect(lines.slice(2, 4)).toEqual([
      '    0.6 m² × 300 g/m² = 180 g',
      '    35 % more for waste: 243 g',
    ]);
    expect(lines[5]).toMatch(/^ {8}1 +238\.7 +4\.3 +3\.7 +\d\d:\d\d +\d\d:\d\d +\d\d:\d\d$/);
    expect(lines[6]).toBe('    in all: resin 238.7 g, hardener 4.3 g (3.7 ml at 1.17 kg/l)');
    expect(stdout).toContain('Week of 2026-12-07, by builder');
  });

  it('says what would shorten the refit most where it is asked to', () => {
    const { status, stdout, stderr } = plan(
      ...[seed('yard-of-one'), '--iterations', '8', '--shorten', '--json'],
    );
    expect([status, stderr]).toEqual([0, '']);
    const { shortening } = JSON.parse(stdout) as PlanFile;
    if (shortening === undefined) throw new Error('nothing is said');
    expect(shortening.map(({ refitId }) => refitId)).toEqual(['wren-winter']);
    const [{ shortenings }] = shortening;
    const gains = shortenings.map(({ refits }) => refits[0].earlierMinutes);
    expect(gains.length).toBeGreaterThan(0);
    expect(gains).toEqual(gains.toSorted((a, b) => b - a));
    expect(gains[gains.length - 1]).toBeGreaterThan(0);
  });

  it('refuses a reading from the future', () => {
    const name = changed('future.json', (yard) => {
      const at = '2190-01-01T12:00:00Z';
      const [space, note] = ['garage', ''];
      yard.readings.push({
        id: 'r',
        space,
        of: 'air',
        at,
        minutes: 0,
        celsius: 18,
        humidity: null,
        note,
      });
    });
    const { status, stderr } = plan(name);
    expect(status).toBe(2);
    expect(stderr).toContain('future.json: readings[0].at: The reading "r" is from the future');
  });

  it('refuses work that no shift can hold', () => {
    const name = changed('large.json', (yard) => (yard.boats[0].refits[0].parts[0].areaM2 = 30));
    const { status, stderr } = plan(name);
    expect(status).toBe(2);
    expect(stderr).toContain(
      'in one piece even with one builder; the longest shift of anyone with Laminating is 9 h',
    );
  });

  it('says why there is no plan, in the yard’s words', () => {
    // The coat can be rolled on Fridays only, and the tape pulled on Mondays to Wednesdays
    // only, which is long after the coat has set.
    const name = changed('never.json', (yard) => {
      const [perrin] = yard.people;
      yard.people.push({
        ...perrin,
        id: 'ines',
        name: 'Ines',
        roles: ['builder'],
        abilities: [{ skill: 'finishing', level: 3, speed: 100 }],
        shifts: [{ weekday: 5, from: '09:00', to: '17:00', breaks: [] }],
        exceptions: [],
      });
      perrin.shifts = perrin.shifts.filter(({ weekday }) => weekday < 4);
      const hatch = yard.procedures.find(({ id }) => id === 'hatch-non-skid');
      for (const step of hatch?.steps ?? []) {
        if (step.id === 'grip-coat' || step.id === 'base-coat') step.minLevel = 3;
        if (step.id === 'unmask') step.skill = 'joinery';
      }
    });
    const { status, stderr } = plan(name, '--iterations', '200');
    expect(status).toBe(3);
    expect(stderr).toContain('never.json: No plan exists');
    expect(stderr).toContain('wren-hatch');
  });

  it.each([
    ['nowhere/plan.json', 'in a folder that is not there'],
    ['.', 'over a folder'],
  ])('does not begin to search for a plan to be written to %s, %s', (out) => {
    const { status, stdout, stderr } = plan(seed('yard-of-one'), '--out', out);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toBe(
      `--out "${out}" cannot be written: name a file in a folder that exists and may be written.\n`,
    );
  });

  it('says that nothing was found when it had no time', () => {
    const { status, stderr } = plan(seed('demo-yard'), '--seconds', '0.001');
    expect(status).toBe(4);
    expect(stderr).toContain('No plan was found in the time');
  });
});

describe('readArguments', () => {
  it('reads every word', () => {
    expect(
      readArguments(
        'yard.json --seconds 2.5 --seed 7 --threads 3 --memory 700 --json --shorten --out p.json --weeks 3 --mix-days 5'.split(
          ' ',
        ),
      ),
    ).toEqual({
      file: 'yard.json',
      seconds: 2.5,
      iterations: null,
      seed: 7,
      threads: 3,
      memoryMB: 700,
      shorten: true,
      json: true,
      out: 'p.json',
      weeks: 3,
      mixDays: 5,
    });
  });

  it.each([
    [[], 'FILE.json is missing: name one yard file.'],
    [['a.json', 'b.json'], '2 files are named: name one yard file.'],
    [
      ['a.json', '--weeks', '0'],
      '--weeks "0" is no number of them: give a whole number from 1 to 400.',
    ],
    [
      ['a.json', '--mix-days', '1.5'],
      '--mix-days "1.5" is no number of them: give a whole number from 1 to 400.',
    ],
    [['a.json', '--seconds', '0'], '--seconds "0" is no time: give a number greater than 0.'],
    [
      ['a.json', '--seconds', '1', '--iterations', '1'],
      '--seconds and --iterations exclude each other: give one of them.',
    ],
    [
      ['a.json', '--iterations', '1.5'],
      '--iterations "1.5" is not possible: give a whole number from 1 to 9007199254740991.',
    ],
    [
      ['a.json', '--seed', 'x'],
      '--seed "x" is not possible: give a whole number from 0 to 4294967295.',
    ],
    [
      ['a.json', '--threads', '65'],
      '--threads "65" is not possible: give a whole number from 1 to 64.',
    ],
    [
      ['a.json', '--memory', 'lots'],
      '--memory "lots" is not possible: give a whole number from 64 to 1048576.',
    ],
    [['a.json', '--fast'], "Unknown option '--fast'"],
  ])('refuses %j', (words, message) => {
    expect(() => readArguments(words)).toThrow(UsageError);
    expect(() => readArguments(words)).toThrow(message);
  });
});

describe('warningLines', () => {
  it('names place, matter and source, and nothing where there is nothing', () => {
    expect(warningLines([])).toBe('');
    expect(
      warningLines([
        { path: 'materials[0].hardener', message: 'Much hardener.', source: null },
        { path: 'procedures[1]', message: 'Contested bond.', source: 'A sheet' },
      ]),
    ).toBe(
      '\nTo be looked at in the yard file\n  materials[0].hardener: Much hardener.\n  procedures[1]: Contested bond. [A sheet]\n\n',
    );
  });
});

describe('what would shorten a plan', () => {
  const boat = (refitId: string, lateMinutes: number) =>
    ({ refitId, lateMinutes }) as Partial<SheetBoat> as SheetBoat;

  it('is asked of the boats that are late, and of all where none is', () => {
    const [wren, swift, owl] = [boat('wren', 0), boat('swift', 30), boat('owl', 0)];
    expect(boatsAsked([wren, swift, owl])).toEqual([swift]);
    expect(boatsAsked([wren, owl])).toEqual([wren, owl]);
  });

  it('is told boat by boat, also where nothing would', () => {
    const text = (words: string) => ({ text: words }) as Partial<Shortening> as Shortening;
    const one = { refitId: 'w', boat: 'Wren', refit: 'Winter list' };
    expect(
      shorteningLines([
        { ...one, shortenings: [text('Without that: 1 h earlier.')] },
        { ...one, boat: 'Owl', shortenings: [] },
      ]),
    ).toBe(
      '\nWhat would shorten it most\n  Wren, Winter list\n    Without that: 1 h earlier.\n  Owl, Winter list\n    Nothing that holds it up, eased by itself, was found to.\n\n',
    );
  });
});

describe('parseJson', () => {
  it.each([
    [
      '{"format": "curewright-yard",',
      'cut, line 1, column 30: this is not JSON: the file ends too early',
    ],
    ['', 'cut, line 1, column 1: this is not JSON: the file ends too early'],
    ['[1,\n 2,\n x]', 'cut, line 3, column 2: this is not JSON: "x]" cannot stand here'],
    [
      '{"a": [1, 2,], "b": 3}',
      'cut, line 1, column 13: this is not JSON: "], \\"b\\": 3}" cannot stand here',
    ],
    ['{"a": {"b": 01}}', 'cut, line 1, column 14: this is not JSON: "1}}" cannot stand here'],
    ['{"a": "x\\q"}', 'cut, line 1, column 7'],
    ['{} {}', 'cut, line 1, column 4'],
    ["{'a': 1}", 'cut, line 1, column 2'],
  ])('refuses %j with its place', (text, message) => {
    expect(() => parseJson(text, 'cut')).toThrow(DomainError);
    expect(() => parseJson(text, 'cut')).toThrow(message);
  });

  it('does not mind a byte-order mark', () => {
    expect(parseJson('\uFEFF{"a": 1}', 'marked')).toEqual({ a: 1 });
  });
});

describe('findingLines', () => {
  const finding = { id: 'cup-four', milestone: 'pot-life', found: 'just-now', age: 2.5 } as const;
  const calibration = {
    milestone: 'pot-life',
    factor: 1.034,
    spread: 1.08,
    prior: { factor: 1, spread: 1.1 },
    evidence: [
      { finding: { ...finding, id: 'cup-one', age: 1 }, flag: null, words: 'It counts.' },
      { finding, flag: 'outlier', words: 'Left out: far later.' },
    ],
  } as const;

  it('says the factor, of how many findings, and which was left out and why', () => {
    const text = findingLines(
      [{ id: 'resin', name: 'Resin' }],
      new Map([['resin', [calibration]]]),
    );
    expect(text.trim().split('\n')).toEqual([
      'What the yard has found itself',
      "  Resin, pot-life: 1.03 times the sheet's, give or take a factor of 1.08, from 1 of 2 findings",
      '    cup-four is left out: Left out: far later.',
    ]);
  });

  it('says nothing where nothing was found', () => {
    expect(findingLines([{ id: 'resin', name: 'Resin' }], new Map())).toBe('');
  });
});

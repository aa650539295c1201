import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { proveRoot } from '../../../bounds/root.ts';
import { activity, builder, problem, work } from '../../../testing/make.ts';
import { madeUpYard } from '../../../testing/made-up-yard.ts';
import { plantedProblem } from '../../../testing/planted.ts';
import type { Problem } from '../../../model/problem.ts';
import { compile } from '../compiled/compiled.ts';
import { unplace } from '../state/place.ts';
import { barredOf, isBarredByMinutes, type Barred } from './barred.ts';
import { decoder as decoderFor, type Decoder } from './decode.ts';
import { earliestFit } from './fit.ts';
import { emptyGenome } from './genome.ts';

const at = (minute: number): { at: number; kind: string; source: string }[] => [
  { at: minute, kind: 'boat', source: '' },
];

type Told = (a: number, m: number, c: number, barred: Barred | null, from: number) => string;

/** Where a crew's work would go in the plan that the decoder stands at. */
function asked({ compiled, state }: Decoder): Told {
  const window = { startFrom: 0, startTo: Infinity, finishFrom: -Infinity, finishTo: Infinity };
  const fit = { start: 0, finish: 0 };
  return (a, m, c, barred, from) => {
    const activity = compiled.activities[a];
    const mode = activity.modes[m];
    const option = mode.crews?.[c] ?? null;
    if (option === null) return 'nobody';
    const { table, minutes } = option;
    const work = { activity, mode, crew: c, option, table, minutes, barred };
    window.startFrom = from;
    const found = earliestFit(compiled, state, work, window, Infinity, Infinity, fit);
    return found ? `${String(fit.start)} to ${String(fit.finish)}` : 'nowhere';
  };
}

/** Takes back half of a plan and asks of what was in it where it could go, in both ways. */
function compare(problem: Problem, seed: number): { asked: number; barred: number } {
  const rng = random(seed);
  const compiled = compile(problem);
  const decoder = decoderFor(compiled, proveRoot(compiled).analysis.domains);
  const genome = emptyGenome(compiled);
  for (let a = 0; a < genome.keys.length; a += 1) genome.keys[a] = rng.unit();
  decoder.decode(genome);
  const { state } = decoder;
  const barred = barredOf(compiled, state);
  const told = asked(decoder);
  const count = { asked: 0, barred: 0 };
  while (state.height > decoder.floor) {
    const a = unplace(compiled, state);
    const from = Math.max(0, state.start[a] - rng.below(3 * 1440));
    compiled.activities[a].modes.forEach((mode, m) => {
      if (!isBarredByMinutes(mode)) return;
      barred.gather(mode, from);
      mode.crews?.slice(0, 12).forEach(({ table }, c) => {
        const plain = told(a, m, c, null, from);
        expect(told(a, m, c, barred, from)).toBe(plain);
        count.asked += 1;
        if (barred.until(table.work, from, compiled.horizon) >= 0) count.barred += 1;
      });
    });
  }
  return count;
}

/** Where the last of the list goes, with the crew that the decode gives it, after what precedes it. */
function startOf(of: Problem): string {
  const compiled = compile(of);
  const decoder = decoderFor(compiled, proveRoot(compiled).analysis.domains);
  const genome = emptyGenome(compiled);
  for (let a = 0; a < genome.keys.length; a += 1) genome.keys[a] = a;
  expect(decoder.decode(genome)).toBe(true);
  unplace(compiled, decoder.state);
  const a = of.activities.length - 1;
  const [mode] = compiled.activities[a].modes;
  expect(isBarredByMinutes(mode)).toBe(true);
  const barred = barredOf(compiled, decoder.state);
  barred.gather(mode, 0);
  const told = asked(decoder);
  const crew = decoder.state.crew[a];
  expect(told(a, 0, crew, null, 0)).toBe(told(a, 0, crew, barred, 0));
  return told(a, 0, crew, barred, 0);
}

describe('minutes that nobody can work', () => {
  it('send each crew to where asking about every place in time would', () => {
    const counts = Array.from({ length: 24 }, (_, seed) =>
      compare(plantedProblem(seed + 1, 30).problem, seed),
    );
    counts.push(compare(madeUpYard(1, 12), 1), compare(madeUpYard(2, 12), 2));
    // Enough of them had something in the way for that to say anything.
    expect(counts.reduce((sum, { asked }) => sum + asked, 0)).toBeGreaterThan(500);
    expect(counts.reduce((sum, { barred }) => sum + barred, 0)).toBeGreaterThan(150);
  });

  it('are those of a resource that is short, past which work goes on where it pauses meanwhile', () => {
    const short = (from: number, until: number): string =>
      startOf(
        problem({
          resources: [
            {
              id: 'saw',
              steps: [
                { from: 0, capacity: 1 },
                { from, capacity: 0 },
                { from: until, capacity: 1 },
              ],
              calendar: null,
              source: 'saw',
            },
          ],
          builders: [builder('Ada')],
          activities: [
            activity('sawing', [
              work(200, {
                splittable: true,
                demands: [{ resource: 0, amount: 1, keptWhilePaused: false }],
              }),
            ]),
          ],
        }),
      );
    // Short in the break at 720 only; then for some of the afternoon too.
    expect(short(720, 750)).toBe('480 to 680');
    expect(short(600, 720)).toBe('750 to 950');
    expect(short(600, 770)).toBe('770 to 1930');
  });

  it('are those in which dust would reach what is wet past a barrier, until that is closed', () => {
    const grinding = (closing: number): string =>
      startOf(
        problem({
          spaces: [
            {
              id: 'shop',
              dustReaches: [
                { space: 0, barrier: null },
                { space: 1, barrier: 0 },
              ],
              settling: 20,
              source: 'shop',
            },
            {
              id: 'booth',
              dustReaches: [{ space: 1, barrier: null }],
              settling: 0,
              source: 'booth',
            },
          ],
          barriers: [{ id: 'curtain', closed: false, source: 'curtain' }],
          builders: [builder('Ada'), builder('Bo'), builder('Cy')],
          activities: [
            activity('coat', [work(180, { air: 'wet', space: 1 })], { releases: at(500) }),
            activity('curtain', [work(10, { barrier: { barrier: 0, closes: true } })], {
              releases: at(closing),
            }),
            activity('grind', [work(200, { air: 'dusty', space: 0, splittable: true })]),
          ],
        }),
      );
    // The coat is wet from 500 to 680: past the curtain dust reaches it until that is closed.
    expect(grinding(750)).toBe('680 to 910');
    expect(grinding(520)).toBe('530 to 760');
  });
});

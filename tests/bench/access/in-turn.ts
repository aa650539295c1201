import { quantile } from '../bench.ts';

/** What is set beside each other, by name. */
type Sides = Readonly<Record<string, () => Promise<unknown>>>;

/**
 * Runs all sides once a round, the first of them in turn, so that a machine that slows down does so
 * for all; a tenth more rounds come first and are not kept. `between` goes before each of them and
 * is not counted. Gives a quantile of a side, the median unless told, in ms.
 */
export async function inTurn<S extends Sides>(
  sides: S,
  rounds: number,
  between: () => Promise<unknown> = () => Promise.resolve(),
): Promise<(side: keyof S & string, q?: number) => number> {
  const each = Object.entries(sides).map(([name, run]) => ({ name, run, times: [] as number[] }));
  const warm = Math.ceil(rounds / 10);
  for (let round = -warm; round < rounds; round += 1) {
    const first = (round + warm) % each.length;
    for (const { run, times } of [...each.slice(first), ...each.slice(0, first)]) {
      await between();
      const begun = performance.now();
      await run();
      if (round >= 0) times.push(performance.now() - begun);
    }
  }
  const times = new Map(each.map((side) => [side.name, side.times]));
  return (side, q = 0.5) => quantile(times.get(side) ?? [], q);
}

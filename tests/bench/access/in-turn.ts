import { quantile } from '../bench.ts';

/** What is set beside each other, by name. */
type Sides = Readonly<Record<string, () => Promise<unknown>>>;

/**
 * Runs all sides once a round, the first of them in turn, so that a machine that slows down does so
 * for all; a tenth more rounds come first and are not kept. Gives the median of a side in ms.
 */
export async function inTurn<S extends Sides>(
  sides: S,
  rounds: number,
): Promise<(side: keyof S & string) => number> {
  const each = Object.entries(sides).map(([name, run]) => ({ name, run, times: [] as number[] }));
  const warm = Math.ceil(rounds / 10);
  for (let round = -warm; round < rounds; round += 1) {
    const first = (round + warm) % each.length;
    for (const { run, times } of [...each.slice(first), ...each.slice(0, first)]) {
      const begun = performance.now();
      await run();
      if (round >= 0) times.push(performance.now() - begun);
    }
  }
  const medians = new Map(each.map(({ name, times }) => [name, quantile(times, 0.5)]));
  return (side) => medians.get(side) ?? NaN;
}

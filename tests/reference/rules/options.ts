import { eachOnce, fieldOf, inOrder, numbersOf, rowsOf, setsOf, type Rules } from './schedule.ts';

/**
 * What breaks the rules of a multi-mode file (see the benchmark folder's README): played period
 * by period from the file's own text, without the engine's reader, model or checker.
 */
export function optionRules(text: string): Rules {
  const [capacity, types, durations] = ['rcap', 'rtype', 'dur'].map((name) =>
    numbersOf(fieldOf(text, name)),
  );
  const options = setsOf(fieldOf(text, 'modes'));
  const demand = rowsOf(fieldOf(text, 'rreq')).map(numbersOf);
  const order = setsOf(fieldOf(text, 'succ')).flatMap((after, i) =>
    after.map((j) => [i + 1, j] as const),
  );
  const tasks = options.map((_, i) => i + 1);

  return (done) => {
    const optionOf = done.map(({ task, option }) => options[task - 1][option] - 1);
    const ends = Math.max(0, ...done.map(({ end }) => end));
    const used = (r: number, t: number): number =>
      done.reduce(
        (sum, { start, end }, k) => sum + (start <= t && t < end ? demand[r][optionOf[k]] : 0),
        0,
      );
    return [
      ...eachOnce(done, tasks),
      ...done
        .filter(({ start, end }, k) => end - start !== durations[optionOf[k]])
        .map(({ task }) => `task ${task} does not take the time of its option`),
      ...inOrder(done, order),
      ...types.flatMap((type, r) => {
        if (type === 2) {
          const all = optionOf.reduce((sum, option) => sum + demand[r][option], 0);
          return all > capacity[r] ? [`resource ${r + 1} gives ${all} in all`] : [];
        }
        return Array.from({ length: ends }, (_, t) => t)
          .filter((t) => used(r, t) > capacity[r])
          .map((t) => `resource ${r + 1} gives ${used(r, t)} in period ${t}`);
      }),
    ];
  };
}

import { eachOnce, type Rules } from './schedule.ts';

interface Stated {
  readonly base: string;
  readonly horizon: number;
  readonly lags: 'elapsed' | 'working';
  readonly project: string;
  readonly resources: readonly { readonly calendar: string; readonly held: boolean }[];
  readonly splittable: string;
}

interface Base {
  readonly durations: readonly number[];
  /** By activity and resource. */
  readonly demand: readonly (readonly number[])[];
  readonly capacity: readonly number[];
  readonly arcs: readonly { readonly i: number; readonly j: number; readonly lag: number }[];
}

function base(text: string): Base {
  const rows = text
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/));
  const count = Number(rows[0][0]) + 2;
  const jobs = rows.slice(1 + count, 1 + 2 * count);
  return {
    durations: jobs.map((row) => Number(row[2])),
    demand: jobs.map((row) => row.slice(3).map(Number)),
    capacity: rows[1 + 2 * count].map(Number),
    arcs: rows.slice(1, 1 + count).flatMap((row, i) => {
      const k = Number(row[2]);
      return row.slice(3, 3 + k).map((j, s) => ({
        i,
        j: Number(j),
        lag: Number(row[3 + k + s].replaceAll(/[[\]]/g, '')),
      }));
    }),
  };
}

/**
 * What breaks the rules of a calendar file, numbered as in the benchmark folder's README: played
 * period by period from the two files' own texts, without the engine's reader, model or checker.
 */
export function calendarRules(text: string, baseText: string): Rules {
  const { horizon, lags, project, resources, splittable } = JSON.parse(text) as Stated;
  const { durations, demand, capacity, arcs } = base(baseText);
  const last = durations.length - 1;
  const real = durations.map((_, i) => i).slice(1, last);
  const canWork = (i: number, t: number): boolean =>
    resources.every(({ calendar }, k) => demand[i][k] === 0 || calendar[t] === '1'); // rule 1
  const working = Array.from(
    { length: horizon + 1 },
    (_, t) => project.slice(0, t).replaceAll('0', '').length,
  );
  const W = (t: number): number => (lags === 'elapsed' ? t : working[t]);

  return (done) => {
    const found = eachOnce(done, real);
    const startOf = new Map(done.map(({ task, start }) => [task, start]));
    startOf.set(0, 0);

    const use = capacity.map(() => Array.from({ length: horizon }, () => 0));
    for (const { task: i, start, end } of done.filter(({ task }) => real.includes(task))) {
      let worked = 0;
      let t = start;
      if (!canWork(i, start)) found.push(`${i} starts in period ${start}, when it cannot work`); // rule 2
      for (; t < horizon && worked < durations[i]; t += 1) {
        const works = canWork(i, t);
        if (works) worked += 1;
        else if (splittable[i - 1] === '0') found.push(`${i} may not wait in period ${t}`); // rule 3
        capacity.forEach((_, k) => {
          if (works || resources[k].held) use[k][t] += demand[i][k]; // rule 4
        });
      }
      if (worked < durations[i] || t > horizon) found.push(`${i} has not ended by the horizon`);
      else if (t !== end) found.push(`${i} ends at ${t}, not at ${end}`);
    }
    capacity.forEach((units, k) => {
      use[k].forEach((used, t) => {
        if (used > units) found.push(`resource ${k} gives ${used} in period ${t}`); // rule 4
      });
    });
    for (const { i, j, lag } of arcs) {
      if (j === last) continue;
      const [from, to] = [startOf.get(i), startOf.get(j)];
      if (from === undefined || to === undefined) continue;
      if (W(to) < W(from) + lag) found.push(`the lag of ${lag} from ${i} to ${j} is not kept`); // rule 5
    }
    return found;
  };
}

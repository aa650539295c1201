import type { Lag, LagTable } from '../../model/problem.ts';
import { constantLag, everyPeriod, type Link } from '../benchmark.ts';

/** `worked[t]`: how many of the first t periods the project works. */
function workedBefore(project: readonly boolean[]): number[] {
  const worked = [0];
  for (const works of project) worked.push(worked[worked.length - 1] + (works ? 1 : 0));
  return worked;
}

/**
 * Start-to-start lags that count only the periods in which the project works, as exact functions
 * of every period: start(to) comes no earlier than the first u with W(u) >= W(start(from)) + lag.
 * A negative lag from j to i says the same of i: it is read as a close from i to j, the last u
 * with W(u) <= W(start(i)) - lag.
 */
export function workingLags(
  file: string,
  links: readonly Link[],
  project: readonly boolean[],
): { readonly lags: Lag[]; readonly tables: LagTable[] } {
  const worked = workedBefore(project);
  const horizon = project.length;
  const never = horizon + 1;
  const tables: LagTable[] = [];
  const byLag = new Map<number, number>();

  const tableOf = (lag: number): number => {
    const known = byLag.get(lag);
    if (known !== undefined) return known;
    const values = worked.map((count) => {
      if (lag >= 0) {
        const first = worked.findIndex((w) => w >= count + lag);
        return first < 0 ? never : first;
      }
      const last = worked.findLastIndex((w) => w <= count - lag);
      return last === horizon ? never : last;
    });
    tables.push(everyPeriod(`W${String(lag)}`, values, `${file} project calendar`));
    byLag.set(lag, tables.length - 1);
    return tables.length - 1;
  };

  const lags = links.map((link, k): Lag => ({
    ...directed(file, link, k),
    fns: [{ kind: 'table', table: tableOf(link.lag) }],
  }));
  return { lags, tables };
}

/** Start-to-start lags that count every period. */
export const elapsedLags = (file: string, links: readonly Link[]): Lag[] =>
  links.map((link, k) => directed(file, link, k));

/** Not negative: an opening as written. Negative: a closing for the activity that it leaves. */
function directed(file: string, link: Link, k: number): Lag {
  const lag = constantLag(file, 0, link, k);
  if (link.lag >= 0) return lag;
  return {
    ...lag,
    from: link.to,
    to: link.from,
    bound: 'close',
    fns: [{ kind: 'constant', minutes: -link.lag }],
  };
}

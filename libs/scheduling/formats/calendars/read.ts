import { plainMode } from '../../model/plain.ts';
import type { Calendar, Interval, Problem } from '../../model/problem.ts';
import { activity, benchmarkProblem, demandsOf, resource } from '../benchmark.ts';
import { readProject } from '../sch.ts';
import { malformed } from '../text.ts';
import { expectFit, readCalendarFile } from './file.ts';
import { elapsedLags, workingLags } from './lags.ts';

/**
 * A project with minimum and maximum lags under calendars (the problem of S. Kreter, A. Schutt,
 * P. J. Stuckey, Constraints 22 (2017) 432-462): activities work only while all resources that
 * they use do, splittable ones wait meanwhile, and everything ends by the horizon. `beside` gives
 * the text of the base file. The dummy start is activity 0, set to period 0; the dummy end says
 * nothing and is left out. Throws `input.malformed`, and what `beside` throws.
 */
export function readCalendars(
  text: string,
  file: string,
  beside: (name: string) => string,
): Problem {
  const given = readCalendarFile(text, file);
  const { jobs, links, capacity } = readProject(beside(given.base), given.base);
  const real = jobs.length - 2;
  expectFit(text, file, given, { resources: capacity.length, activities: real });
  const end = jobs.length - 1;
  if (links.some(({ from }) => from === end)) {
    throw malformed(
      { file: given.base, line: 1 },
      end,
      'a lag leaves the last activity, which is the end of all',
      'Leave out lags from the end.',
    );
  }
  const kept = links.filter(({ to }) => to !== end);
  const { lags, tables } =
    given.lags === 'working'
      ? workingLags(file, kept, given.project)
      : { lags: elapsedLags(file, kept), tables: [] };
  return benchmarkProblem(file, {
    horizon: given.horizon,
    calendars: given.resources.map(({ works }, r) => calendar(file, r, works)),
    resources: capacity.map((amount, r) => resource(file, r, amount, r)),
    activities: jobs.slice(0, end).map(({ duration, demand }, i) => {
      const splittable = i > 0 && given.splittable[i - 1];
      const demands = demandsOf(demand, (r) => splittable && given.resources[r].held);
      const start = { kind: 'set', start: 0, finish: null, builders: null } as const;
      return activity(
        file,
        String(i),
        [plainMode({ duration, demands, splittable })],
        i === 0 ? start : null,
      );
    }),
    lags,
    tables,
  });
}

const calendar = (file: string, r: number, works: readonly boolean[]): Calendar => ({
  id: `C${String(r + 1)}`,
  shifts: spansOf(works),
  breaks: [],
  overtime: [],
  source: `${file} calendar ${String(r + 1)}`,
});

/** The longest runs of periods that are marked. */
function spansOf(works: readonly boolean[]): Interval[] {
  const spans: Interval[] = [];
  let from = -1;
  for (let t = 0; t <= works.length; t += 1) {
    const on = t < works.length && works[t];
    if (on && from < 0) from = t;
    if (!on && from >= 0) {
      spans.push({ start: from, end: t });
      from = -1;
    }
  }
  return spans;
}

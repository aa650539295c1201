import type { Problem } from '#scheduling/model/problem.ts';
import type { Task, TaskLink, Workload } from '../../workload/workload.ts';
import { pathOf } from '../../yard/path.ts';
import type { Procedure } from '../../yard/procedures.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Row } from './map.ts';

type Path = readonly PropertyKey[];

interface Named {
  readonly id: string;
  readonly name: string;
}

interface Rows {
  readonly put: (source: string, name: string, path: Path) => void;
}

/** Where a job stands, and its procedure. */
interface JobPlace {
  readonly path: Path;
  readonly part: string;
  readonly procedure: Procedure | undefined;
  readonly procedurePath: Path;
  readonly words: readonly { readonly step: string }[];
  readonly after: readonly string[];
}

function lists(yard: Yard, { put }: Rows): void {
  const each = (kind: string, list: keyof Yard, rows: readonly Named[]): void => {
    rows.forEach(({ id, name }, k) => {
      put(`${kind}:${id}`, name, [list, k]);
    });
  };
  each('person', 'people', yard.people);
  each('space', 'spaces', yard.spaces);
  each('tool', 'tools', yard.tools);
  each('stock', 'stocks', yard.stocks);
  each('barrier', 'barriers', yard.barriers);
  each('slot-list', 'slotLists', yard.slotLists);
  each('delivery', 'deliveries', yard.deliveries);
  each('material', 'materials', yard.materials);
  yard.people.forEach(({ id, name }, k) => {
    put(`calendar:${id}`, name, ['people', k, 'shifts']);
  });
  yard.spaces.forEach(({ id, name }, k) => {
    put(`space-hours:${id}`, name, ['spaces', k, 'hours']);
  });
  yard.tools.forEach(({ id, name }, k) => {
    put(`tool-hours:${id}`, name, ['tools', k, 'hours']);
  });
  put('horizon', 'the end of the plan', ['horizonDays']);
  put('now', 'the moment from which the plan is made', []);
}

function boats(yard: Yard, { put }: Rows): ReadonlyMap<string, JobPlace> {
  const procedures = new Map(yard.procedures.map(({ id }, p) => [id, p]));
  const jobs = new Map<string, JobPlace>();
  // Two boats may each have a hatch.
  const named = (part: string, boat: string): string =>
    yard.boats.length > 1 ? `${part} of ${boat}` : part;
  yard.boats.forEach((boat, b) => {
    boat.refits.forEach((refit, r) => {
      const refitPath = ['boats', b, 'refits', r];
      put(`refit:${refit.id}`, refit.name, refitPath);
      refit.parts.forEach((part, p) => {
        const partPath = [...refitPath, 'parts', p];
        put(`part:${part.id}`, named(part.name, boat.name), partPath);
        part.jobs.forEach((job, j) => {
          const at = procedures.get(job.procedure);
          jobs.set(job.id, {
            path: [...partPath, 'jobs', j],
            part: named(part.name, boat.name),
            procedure: at === undefined ? undefined : yard.procedures[at],
            procedurePath: ['procedures', at ?? -1],
            words: job.words,
            after: job.after,
          });
        });
      });
    });
  });
  return jobs;
}

/** The row of a task's step, or of what stands under it; of its job, where the step is gone. */
function stepPath(task: Task, job: JobPlace, under: Path = []): Path {
  const at = job.procedure?.steps.findIndex(({ id }) => id === task.stepId) ?? -1;
  return at < 0 ? job.path : [...job.procedurePath, 'steps', at, ...under];
}

function tasks(workload: Workload, jobs: ReadonlyMap<string, JobPlace>, { put }: Rows): void {
  for (const task of workload.tasks) {
    const job = jobs.get(task.jobId);
    if (job === undefined) continue;
    const name = `${task.name} (${job.part})`;
    put(`task:${task.id}`, name, stepPath(task, job));
    put(`surface:${task.id}`, name, stepPath(task, job));
    put(`batch:${task.id}`, name, stepPath(task, job, ['oneBatch']));
    const step = job.procedure?.steps.find(({ id }) => id === task.stepId);
    for (const hold of task.holds) {
      const k = step?.holds.findIndex(({ id }) => id === hold.id) ?? -1;
      const path = stepPath(task, job, k < 0 ? [] : ['holds', k]);
      put(`hold:${task.id}/${hold.id}`, name, path);
    }
    const word = job.words.findIndex(({ step: waits }) => waits === task.stepId);
    if (word >= 0) put(`word:${task.id}`, name, [...job.path, 'words', word]);
  }
}

function linkPath(link: TaskLink, from: Task, to: Task, jobs: ReadonlyMap<string, JobPlace>): Path {
  const [own, later] = [jobs.get(from.jobId), jobs.get(to.jobId)];
  const links = own?.procedure?.links ?? [];
  const k = links.findIndex(({ id }) => `${from.jobId}.${id}` === link.id);
  if (own !== undefined && link.setBy === 'procedure' && k >= 0)
    return [...own.procedurePath, 'links', k];
  if (later === undefined) return [];
  const after = later.after.indexOf(from.jobId);
  return link.setBy === 'job' && after >= 0 ? [...later.path, 'after', after] : later.path;
}

function links(workload: Workload, jobs: ReadonlyMap<string, JobPlace>, { put }: Rows): void {
  const byId = new Map(workload.tasks.map((task) => [task.id, task]));
  for (const link of workload.links) {
    const [from, to] = [byId.get(link.from), byId.get(link.to)];
    if (from === undefined || to === undefined) continue;
    const part = jobs.get(to.jobId)?.part ?? to.partId;
    put(`link:${link.id}`, `${from.name} to ${to.name} (${part})`, linkPath(link, from, to, jobs));
  }
  for (const choice of workload.choices) {
    const first = choice.branches.flatMap((branch) => branch.tasks).at(0);
    const jobId = (first === undefined ? undefined : byId.get(first))?.jobId ?? '';
    const job = jobs.get(jobId);
    if (job === undefined) continue;
    const k = job.procedure?.choices.findIndex(({ id }) => `${jobId}.${id}` === choice.id) ?? -1;
    const path = k < 0 ? job.path : [...job.procedurePath, 'choices', k];
    put(`choice:${choice.id}`, `${choice.name} (${job.part})`, path);
  }
}

/** Sources of everything in a problem that a constraint can be about. */
function sourcesOf(problem: Problem): Set<string> {
  const rows: readonly (readonly { readonly source: string }[])[] = [
    problem.calendars,
    problem.builders,
    problem.resources,
    problem.stocks,
    problem.spaces,
    problem.barriers,
    problem.parts,
    problem.slotLists,
    problem.activities,
    problem.tables,
    problem.lags,
    problem.choices,
    problem.surfaces,
    problem.holds,
    problem.refits,
    ...problem.activities.map(({ releases }) => releases),
    ...problem.activities.flatMap(({ modes }) => modes.map(({ forbidden }) => forbidden)),
  ];
  return new Set(['horizon', ...rows.flat().map(({ source }) => source)]);
}

/** The yard's rows that a problem made from it refers to, by source. */
export function rowsIn(problem: Problem, yard: Yard, workload: Workload): Record<string, Row> {
  const all = new Map<string, Row>();
  const rows: Rows = {
    put: (source, name, path) => {
      const cut = source.indexOf(':');
      const [kind, id] = cut < 0 ? [source, ''] : [source.slice(0, cut), source.slice(cut + 1)];
      all.set(source, { kind, id, name, path: pathOf(path) });
    },
  };
  lists(yard, rows);
  const jobs = boats(yard, rows);
  tasks(workload, jobs, rows);
  links(workload, jobs, rows);
  const used = sourcesOf(problem);
  return Object.fromEntries([...all].filter(([source]) => used.has(source)));
}

import { circles } from '../circle.ts';
import type { Job, Refit } from '../boats.ts';
import type { Yard } from '../yard.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';
import { handoverFaults, jobFaults } from './jobs.ts';
import { layerFaults, sizeFaults } from './layers.ts';

interface Placed<T> {
  readonly row: T;
  readonly path: readonly PropertyKey[];
}

function refitsOf(yard: Yard): Placed<Refit>[] {
  return yard.boats.flatMap((boat, b) =>
    boat.refits.map((row, r) => ({ row, path: ['boats', b, 'refits', r] })),
  );
}

function jobsOf({ row, path }: Placed<Refit>): Placed<Job>[] {
  return row.parts.flatMap((part, p) =>
    part.jobs.map((job, j) => ({ row: job, path: [...path, 'parts', p, 'jobs', j] })),
  );
}

function orderFaults(to: Report, refit: Placed<Refit>, all: ReadonlyMap<string, unknown>): void {
  const jobs = jobsOf(refit);
  const index = new Map(jobs.map(({ row }, k) => [row.id, k]));
  const arcs: [number, number][] = [];
  jobs.forEach(({ row, path }, k) => {
    row.after.forEach((before, a) => {
      const from = index.get(before);
      if (from !== undefined) arcs.push([from, k]);
      else if (all.has(before)) {
        to.add(
          'yard.reference',
          [...path, 'after', a],
          `the job "${before}" belongs to another refit than ${row.id}`,
          {
            value: before,
            cure: 'Name a job of the same refit.',
          },
        );
      } else known(to, 'job', before, index, [...path, 'after', a]);
    });
  });
  for (const circle of circles(jobs.length, arcs)) {
    const names = circle.map((job) => jobs[job].row.id);
    const last = jobs[circle[circle.length - 1]];
    to.add(
      'yard.cycle',
      [...last.path, 'after'],
      `jobs wait for each other in a circle: ${[...names, names[0]].join(' -> ')}`,
      { value: names },
    );
  }
}

/** Task ids are `<job>.<step>`, and both may hold dots. */
function taskFaults(to: Report, yard: Yard, jobs: readonly Placed<Job>[]): void {
  const procedures = byId(yard.procedures);
  const made = new Map<string, string>();
  for (const { row, path } of jobs) {
    for (const step of procedures.get(row.procedure)?.steps ?? []) {
      const task = `${row.id}.${step.id}`;
      const other = made.get(task);
      if (other !== undefined && other !== row.id) {
        to.add(
          'yard.duplicate',
          [...path, 'id'],
          `the jobs "${other}" and "${row.id}" both make a task "${task}"`,
          { value: row.id, cure: 'Rename one of the two jobs.' },
        );
      }
      made.set(task, row.id);
    }
  }
}

/** Boats, refits, parts and jobs: ids, references, order, promises. */
export function boatFaults(to: Report, yard: Yard): void {
  const refits = refitsOf(yard);
  const parts = refits.flatMap(({ row, path }) =>
    row.parts.map((part, p) => ({ row: part, path: [...path, 'parts', p] })),
  );
  const jobs = refits.flatMap(jobsOf);
  uniqueIds(
    to,
    'boat',
    yard.boats.map((row, k) => ({ row, path: ['boats', k] })),
  );
  uniqueIds(to, 'refit', refits);
  uniqueIds(to, 'part', parts);
  uniqueIds(to, 'job', jobs);

  const people = byId(yard.people);
  yard.boats.forEach((boat, b) => {
    if (boat.owner !== null) known(to, 'person', boat.owner, people, ['boats', b, 'owner']);
  });
  const spaces = byId(yard.spaces);
  for (const { row, path } of parts) known(to, 'space', row.space, spaces, [...path, 'space']);
  const procedures = byId(yard.procedures);
  for (const { row, path } of jobs)
    known(to, 'procedure', row.procedure, procedures, [...path, 'procedure']);

  taskFaults(to, yard, jobs);

  const every = new Map(jobs.map(({ row }) => [row.id, row]));
  for (const refit of refits) {
    const { promised, release, name } = refit.row;
    handoverFaults(to, refit.row, refit.path);
    refit.row.parts.forEach((part, p) => {
      layerFaults(to, yard, part, [...refit.path, 'parts', p]);
      sizeFaults(to, yard, part, [...refit.path, 'parts', p]);
      part.jobs.forEach((job, j) => {
        jobFaults(to, yard, job, part, refit.row, [...refit.path, 'parts', p, 'jobs', j]);
      });
    });
    if (promised !== null && Date.parse(promised) <= Date.parse(release)) {
      to.add(
        'yard.promise',
        [...refit.path, 'promised'],
        `${name} is promised for ${promised}, but only released on ${release}`,
        { value: promised },
      );
    }
    orderFaults(to, refit, every);
  }
}

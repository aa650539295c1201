import type { Surface } from '#cure/bond/bond.ts';
import { exposed, type LaidLayer } from '#cure/bond/history.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import type { Job, Part } from '../../boats.ts';
import type { Preparation, Procedure, Step } from '../../procedures.ts';
import type { Yard } from '../../yard.ts';
import { byId } from '../faults.ts';
import { coatOf, judged, PREPARED_AGO, surfaceOf, type Placed } from './judge.ts';
import { isTurned, lays, leavesOf, meetingsOf } from './meetings.ts';

/** What a first coat of a job may find: its name in words, and the surface after so much preparation. */
interface Found {
  readonly words: string;
  /** What earlier jobs did to it since it was laid. */
  readonly since: readonly Preparation[];
  readonly surface: (preparations: readonly Preparation[]) => Surface;
}

const preparedBy = (steps: readonly Step[]): Preparation[] =>
  steps.flatMap(({ prepares }) => prepares);

/** Minutes: a layer with a date is not of long ago, and how old it will be the plan says. */
const LAID_AGO = 7 * 24 * 60;

/** A part's own layers, all hard, with what is sanded off gone. */
function layersFound(part: Part, sheets: ReadonlyMap<string, CureMaterial>): Found[] {
  const layers = part.layers.map((layer): LaidLayer => {
    const sheet = layer.material === null ? undefined : sheets.get(layer.material);
    return {
      substrate: layer.base,
      kind: layer.surface,
      waxed: layer.waxed,
      blushes: sheet?.blushes ?? layer.base === 'epoxy',
      laidAt: layer.laidAt === null ? null : -LAID_AGO,
      mm: layer.mm,
      stage: 'cured',
    };
  });
  // A layer of long ago on one with a date is a fault of its own.
  const ordered = layers.every(
    ({ laidAt }, k) => k === 0 || laidAt !== null || layers[k - 1].laidAt === null,
  );
  const last = part.layers.at(-1);
  if (last === undefined || !ordered) return [];
  return [
    {
      words: `what ${part.name} is made of (${last.base})`,
      since: [],
      surface: (preparations) => {
        const events = preparations.map(({ kind, grit, mm }) => ({
          at: -PREPARED_AGO,
          kind,
          grit,
          mm: mm ?? 0,
        }));
        const surface = exposed({ now: 0, layers, events });
        const peeled = preparations.some(({ kind }) => kind === 'peel');
        return peeled ? { ...surface, kind: 'peel-ply' } : surface;
      },
    },
  ];
}

/** The jobs of one part that come before a job, nearest last, through jobs of any part of the refit. */
function earlier(job: Job, part: Part, jobs: ReadonlyMap<string, Job>): Job[] {
  const before = new Set<string>();
  const pending = [...job.after];
  for (let id = pending.pop(); id !== undefined; id = pending.pop()) {
    if (before.has(id)) continue;
    before.add(id);
    pending.push(...(jobs.get(id)?.after ?? []));
  }
  before.delete(job.id);
  return part.jobs.filter(({ id }) => before.has(id));
}

/** The jobs of a part among some that none of the others has to wait behind. */
const latest = (some: readonly Job[], part: Part, jobs: ReadonlyMap<string, Job>): Job[] =>
  some.filter((one) => some.every((other) => !earlier(other, part, jobs).includes(one)));

/** What a job finds on its part: what the nearest earlier jobs leave, or else the part's own layers. */
function foundBy(
  job: Job,
  part: Part,
  jobs: ReadonlyMap<string, Job>,
  procedures: ReadonlyMap<string, Procedure>,
  sheets: ReadonlyMap<string, CureMaterial>,
  passed: ReadonlySet<string> = new Set(),
): Found[] {
  // Jobs that wait for each other in a circle are a fault of their own.
  if (passed.has(job.id)) return [];
  const before = earlier(job, part, jobs);
  if (before.length === 0) return layersFound(part, sheets);
  return latest(before, part, jobs).flatMap((last) => {
    const procedure = procedures.get(last.procedure);
    if (procedure === undefined) return [];
    if (!procedure.steps.some(lays)) {
      if (isTurned(procedure.steps)) return [];
      const since = preparedBy(procedure.steps);
      return foundBy(last, part, jobs, procedures, sheets, new Set([...passed, job.id])).map(
        (found) => ({
          ...found,
          since: [...found.since, ...since],
        }),
      );
    }
    return leavesOf(procedure).flatMap(({ film, after }): Found[] => {
      const sheet = sheets.get(film.material ?? '');
      if (sheet === undefined || isTurned(after)) return [];
      return [
        {
          words: `${film.name} of ${last.id}`,
          since: preparedBy(after),
          surface: (preparations) => surfaceOf(sheet, 'cured', preparations),
        },
      ];
    });
  });
}

/** First coats of jobs on what their part has then. */
export function partFindings(yard: Yard, sheets: ReadonlyMap<string, CureMaterial>): Placed[] {
  const procedures = byId(yard.procedures);
  const placed: Placed[] = [];
  yard.boats.forEach((boat, b) => {
    boat.refits.forEach((refit, r) => {
      const jobs = byId(refit.parts.flatMap((part) => part.jobs));
      refit.parts.forEach((part, p) => {
        part.jobs.forEach((job, j) => {
          const procedure = procedures.get(job.procedure);
          const found = foundBy(job, part, jobs, procedures, sheets);
          if (procedure === undefined || found.length === 0) return;
          for (const { on, next, between } of meetingsOf(procedure)) {
            const over = sheets.get(next.material ?? '');
            if (on !== null || over === undefined) continue;
            for (const { words, since, surface } of found) {
              const own = preparedBy(between);
              const what = `${next.name} of ${job.id} on ${words}`;
              const now = surface([...since, ...own]);
              const coat = coatOf(next, over);
              const judgements = judged(what, now, coat, own.length > 0);
              for (const judgement of judgements)
                placed.push({
                  path: ['boats', b, 'refits', r, 'parts', p, 'jobs', j, 'procedure'],
                  value: job.procedure,
                  judgement,
                });
            }
          }
        });
      });
    });
  });
  return placed;
}

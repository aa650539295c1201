import type { Job, Part, Refit } from '../boats.ts';
import type { Procedure } from '../procedures.ts';
import type { Yard } from '../yard.ts';
import { byId, known, type Report } from './faults.ts';

type Path = readonly PropertyKey[];

function wordFaults(to: Report, job: Job, procedure: Procedure, path: Path): void {
  const steps = byId(procedure.steps);
  job.words.forEach(({ step }, k) => {
    const at = [...path, 'words', k, 'step'];
    if (!known(to, 'step', step, steps, at) || steps.get(step)?.skill === null) return;
    to.add('input.field', at, `"${step}" has a crew, and waits for nobody's word`, {
      value: step,
      cure: 'Name a hold point, or leave the word out.',
    });
  });
  for (const step of procedure.steps) {
    const expected = job.words.some((word) => word.step === step.id);
    if (step.skill !== null || step.slots !== null || expected) continue;
    to.add(
      'yard.reference',
      [...path, 'words'],
      `${step.name} of ${job.id} waits for a word that is expected at no time`,
      { value: step.id, cure: 'Say when the word is expected, or give the step slots.' },
    );
  }
}

function joinFaults(to: Report, job: Job, part: Part, refit: Refit, path: Path): void {
  const parts = byId(refit.parts);
  job.joins.forEach((other, k) => {
    const at = [...path, 'joins', k];
    if (!known(to, 'part', other, parts, at) || other !== part.id) return;
    to.add('input.field', at, `${part.name} is joined to itself`, {
      value: other,
      cure: 'Name another part of the refit.',
    });
  });
}

/** Where a job goes, what it joins, and what it waits for. */
export function jobFaults(
  to: Report,
  yard: Yard,
  job: Job,
  part: Part,
  refit: Refit,
  path: Path,
): void {
  if (job.destination !== null)
    known(to, 'space', job.destination, byId(yard.spaces), [...path, 'destination']);
  joinFaults(to, job, part, refit, path);
  const procedure = yard.procedures.find(({ id }) => id === job.procedure);
  if (procedure === undefined) return;
  const steps = byId(procedure.steps);
  const deliveries = byId(yard.deliveries);
  job.waitsFor.forEach(({ delivery, step }, k) => {
    known(to, 'delivery', delivery, deliveries, [...path, 'waitsFor', k, 'delivery']);
    if (step !== null) known(to, 'step', step, steps, [...path, 'waitsFor', k, 'step']);
  });
  wordFaults(to, job, procedure, path);
  const carried = procedure.steps.find(({ move }) => move?.kind === 'destination');
  if (carried !== undefined && job.destination === null) {
    to.add(
      'yard.reference',
      [...path, 'destination'],
      `${carried.name} takes ${part.name} to the destination of ${job.id}, which has none`,
      { value: null, cure: 'Name the space it is taken to.' },
    );
  }
}

/** Handovers in order of time. */
export function handoverFaults(to: Report, refit: Refit, path: Path): void {
  refit.handovers.forEach((moment, k) => {
    if (k === 0 || Date.parse(refit.handovers[k - 1]) < Date.parse(moment)) return;
    to.add(
      'input.field',
      [...path, 'handovers', k],
      `${refit.name}: the handover ${moment} is not after the one before it`,
      { value: moment, cure: 'List the handovers in order of time.' },
    );
  });
}

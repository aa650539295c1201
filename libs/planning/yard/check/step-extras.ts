import { branchOf } from '../branch.ts';
import type { Procedure, Step } from '../procedures.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';
import { momentFaults } from './moments.ts';
import type { Shelf } from './shelf.ts';

type Path = readonly PropertyKey[];

const refusal =
  (to: Report, step: Step, path: Path) =>
  (field: keyof Step, message: string, cure: string): void => {
    to.add('input.field', [...path, field], `${step.name} ${message}`, {
      value: step[field],
      cure,
    });
  };

/** A crew, or none at all: a hold point does nothing but wait. */
export function crewFaults(to: Report, step: Step, path: Path): void {
  const wrong = refusal(to, step, path);
  const { skill, crewMin, crewMax } = step;
  if (crewMin > crewMax) {
    wrong(
      'crewMin',
      `needs at least ${String(crewMin)} and at most ${String(crewMax)} builders`,
      'Make crewMin no larger than crewMax.',
    );
  } else if (skill !== null && crewMin === 0)
    wrong('crewMin', 'needs a skill, and nobody to have it', 'Ask for at least one builder.');
  if (skill !== null) return;
  if (crewMax > 0) wrong('skill', 'needs builders of no skill', 'Name the skill.');
  const { fixed, perM2, perEdgeM, perJointM } = step.effort;
  const idle = fixed + perM2 + perEdgeM + perJointM + step.floorMinutes === 0;
  const plain = step.air === 'clean' && step.tools.length === 0 && step.holds.length === 0;
  const still = step.move === null && step.barrier === null && step.sensitiveUntil === null;
  if (!idle || !plain || !still) {
    wrong(
      'skill',
      'is a hold point, without a crew, and does something',
      'Leave a hold point nothing but its name, price and slots, or give it a skill and a crew.',
    );
  }
}

function moveFaults(to: Report, procedure: Procedure, step: Step, shelf: Shelf, path: Path): void {
  const wrong = refusal(to, step, path);
  if (step.joins && !step.onPart)
    wrong('joins', 'takes joined parts, but not its own', 'Set onPart, or leave joins out.');
  if (step.move === null) return;
  if (step.move.kind === 'space')
    known(to, 'space', step.move.space, shelf.spaces, [...path, 'move', 'space']);
  if (!step.onPart)
    wrong('move', 'moves a part that others work on meanwhile', 'Set onPart, or move nothing.');
  if (branchOf(procedure).has(step.id)) {
    wrong(
      'move',
      'moves the part in one branch of a choice only, so that nobody can say where it then is',
      'Move it before or after the choice.',
    );
  }
}

function surfaceFaults(
  to: Report,
  procedure: Procedure,
  step: Step,
  shelf: Shelf,
  path: Path,
): void {
  const wrong = refusal(to, step, path);
  const steps = byId(procedure.steps);
  const material = step.material === null ? undefined : shelf.sheets.get(step.material);
  const why = `the surface of ${step.name} waits for`;
  momentFaults(to, step.sensitiveUntil, step, material, [...path, 'sensitiveUntil'], why);
  if (step.air === 'dusty' && step.sensitiveUntil !== null)
    wrong('sensitiveUntil', 'makes dust and leaves a surface that bears none', 'Leave it out.');
  if (step.coveredBy.length > 0 && step.air !== 'wet' && step.sensitiveUntil === null) {
    wrong(
      'coveredBy',
      'is covered, but leaves nothing sensitive',
      'Say until when its surface is sensitive, or leave coveredBy out.',
    );
  }
  step.coveredBy.forEach((cover, k) => {
    const at = [...path, 'coveredBy', k];
    if (known(to, 'step', cover, steps, at) && cover === step.id)
      wrong('coveredBy', 'covers itself', 'Name a later step.');
  });
}

function holdFaults(to: Report, procedure: Procedure, step: Step, shelf: Shelf, path: Path): void {
  const steps = byId(procedure.steps);
  const material = step.material === null ? undefined : shelf.sheets.get(step.material);
  uniqueIds(
    to,
    'hold',
    step.holds.map((row, k) => ({ row, path: [...path, 'holds', k] })),
  );
  step.holds.forEach(({ tool, count, until }, h) => {
    const here = [...path, 'holds', h];
    if (known(to, 'tool', tool, shelf.tools, [...here, 'tool'])) {
      const has = shelf.tools.get(tool)?.count ?? 0;
      if (count > has) {
        to.add(
          'input.field',
          [...here, 'count'],
          `${step.name} holds ${String(count)} of ${tool}; the yard has ${String(has)}`,
          { value: count, cure: 'Lower the number, or add tools.' },
        );
      }
    }
    until.forEach((end, u) => {
      const at = [...here, 'until', u];
      if (end.kind === 'step') known(to, 'step', end.step, steps, [...at, 'step']);
      else momentFaults(to, end, step, material, at, `a hold of ${step.name} waits for`);
    });
  });
}

/** Moves, surfaces, holds, stocks, barriers, slots, clean-down. */
export function extraFaults(
  to: Report,
  procedure: Procedure,
  step: Step,
  shelf: Shelf,
  path: Path,
): void {
  moveFaults(to, procedure, step, shelf, path);
  surfaceFaults(to, procedure, step, shelf, path);
  holdFaults(to, procedure, step, shelf, path);
  step.consumes.forEach(({ stock }, k) =>
    known(to, 'stock', stock, shelf.stocks, [...path, 'consumes', k, 'stock']),
  );
  if (step.barrier !== null)
    known(to, 'barrier', step.barrier.barrier, shelf.barriers, [...path, 'barrier', 'barrier']);
  if (step.slots !== null) known(to, 'slot list', step.slots, shelf.slotLists, [...path, 'slots']);
  if (step.cleanDownMinutes > 0 && (step.splittable || step.skill === null)) {
    refusal(to, step, path)(
      'cleanDownMinutes',
      'is cleaned down after, but is not wet work in one piece',
      'Leave the clean-down out, or set splittable to false.',
    );
  }
}

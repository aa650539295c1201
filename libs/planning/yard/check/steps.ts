import type { Procedure, Step } from '../procedures.ts';
import { known, type Report } from './faults.ts';
import { hasLine, type Shelf } from './shelf.ts';
import { crewFaults, extraFaults } from './step-extras.ts';
import { mixFaults } from './mixes.ts';

function materialOf(to: Report, step: Step, shelf: Shelf, path: readonly PropertyKey[]): void {
  const at = [...path, 'material'];
  if (step.material === null) {
    if (step.air === 'wet') {
      to.add('input.field', at, `${step.name} is wet work and names no material`, {
        value: null,
        cure: 'Name what is applied, or make the step clean or dusty.',
      });
    }
    return;
  }
  if (step.air !== 'wet') {
    to.add(
      'input.field',
      at,
      `${step.name} applies ${step.material}, but its air is "${step.air}"`,
      {
        value: step.material,
        cure: 'Make the step wet, or leave the material out.',
      },
    );
  }
  if (!known(to, 'material', step.material, shelf.materials, at)) return;
  const material = shelf.sheets.get(step.material);
  if (material !== undefined)
    hasLine(to, material, 'dust-safe', 'all wet work needs (dust stays away until then)', at);
}

/** References, crew, material and tools of a procedure's steps. */
export function stepFaults(
  to: Report,
  procedure: Procedure,
  shelf: Shelf,
  path: readonly PropertyKey[],
): void {
  procedure.steps.forEach((step, s) => {
    const here = [...path, 'steps', s];
    if (step.skill !== null) known(to, 'skill', step.skill, shelf.skills, [...here, 'skill']);
    crewFaults(to, step, here);
    extraFaults(to, procedure, step, shelf, here);
    if (step.space !== null) known(to, 'space', step.space, shelf.spaces, [...here, 'space']);
    materialOf(to, step, shelf, here);
    mixFaults(to, step, shelf, here);
    if (step.air === 'wet' && step.splittable) {
      to.add(
        'input.field',
        [...here, 'splittable'],
        `${step.name} is wet work, which runs in one piece`,
        {
          value: true,
          cure: 'Set splittable to false.',
        },
      );
    }
    step.tools.forEach(({ tool, count }, t) => {
      if (!known(to, 'tool', tool, shelf.tools, [...here, 'tools', t, 'tool'])) return;
      const has = shelf.tools.get(tool)?.count ?? 0;
      if (count > has) {
        to.add(
          'input.field',
          [...here, 'tools', t, 'count'],
          `${step.name} needs ${String(count)} of ${tool}; the yard has ${String(has)}`,
          {
            value: count,
            cure: 'Lower the number, or add tools.',
          },
        );
      }
    });
  });
}

import type { Material } from '../materials.ts';
import type { Procedure, Step } from '../procedures.ts';
import type { Space, Tool } from '../spaces.ts';
import type { Yard } from '../yard.ts';
import { known, listed, type Report } from './faults.ts';

/** What procedures refer to. */
export interface Stock {
  readonly skills: ReadonlyMap<string, Yard['skills'][number]>;
  readonly spaces: ReadonlyMap<string, Space>;
  readonly tools: ReadonlyMap<string, Tool>;
  readonly materials: ReadonlyMap<string, Material>;
}

/** Adds a fault if the material's sheet has no line for the milestone. */
export function hasLine(
  to: Report,
  material: Material,
  milestone: string,
  why: string,
  path: readonly PropertyKey[],
): void {
  if (material.milestones.some((line) => line.milestone === milestone)) return;
  const lines = listed(material.milestones.map((line) => line.milestone));
  to.add(
    'yard.reference',
    path,
    `the data sheet of ${material.name} has no line "${milestone}", which ${why}; its lines: ${lines}`,
    {
      value: milestone,
      cure: `Add the line "${milestone}" to the sheet of ${material.name}, or use another material or milestone.`,
    },
  );
}

function materialOf(to: Report, step: Step, stock: Stock, path: readonly PropertyKey[]): void {
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
  if (!known(to, 'material', step.material, stock.materials, at)) return;
  const material = stock.materials.get(step.material);
  if (material !== undefined)
    hasLine(to, material, 'dust-safe', 'all wet work needs (dust stays away until then)', at);
}

/** References, crew, material and tools of a procedure's steps. */
export function stepFaults(
  to: Report,
  procedure: Procedure,
  stock: Stock,
  path: readonly PropertyKey[],
): void {
  procedure.steps.forEach((step, s) => {
    const here = [...path, 'steps', s];
    known(to, 'skill', step.skill, stock.skills, [...here, 'skill']);
    if (step.space !== null) known(to, 'space', step.space, stock.spaces, [...here, 'space']);
    materialOf(to, step, stock, here);
    if (step.crewMin > step.crewMax) {
      to.add(
        'input.field',
        [...here, 'crewMin'],
        `${step.name} needs at least ${String(step.crewMin)} and at most ${String(step.crewMax)} builders`,
        {
          value: step.crewMin,
          cure: 'Make crewMin no larger than crewMax.',
        },
      );
    }
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
      if (!known(to, 'tool', tool, stock.tools, [...here, 'tools', t, 'tool'])) return;
      const has = stock.tools.get(tool)?.count ?? 0;
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

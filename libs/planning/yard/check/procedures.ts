import type { Procedure } from '../procedures.ts';
import type { Yard } from '../yard.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';
import { linkFaults } from './links.ts';
import type { Shelf } from './shelf.ts';
import { stepFaults } from './steps.ts';

function choiceFaults(to: Report, procedure: Procedure, path: readonly PropertyKey[]): void {
  const steps = byId(procedure.steps);
  const links = byId(procedure.links);
  const taken = new Map<string, string>();
  const once = (id: string, what: string, where: string, at: readonly PropertyKey[]): void => {
    const earlier = taken.get(`${what} ${id}`);
    if (earlier === undefined) taken.set(`${what} ${id}`, where);
    else {
      to.add(
        'yard.duplicate',
        at,
        `the ${what} "${id}" stands in two branches: ${earlier} and ${where}`,
        {
          value: id,
          cure: `Give each branch its own ${what}.`,
        },
      );
    }
  };
  uniqueIds(
    to,
    'choice',
    procedure.choices.map((row, k) => ({ row, path: [...path, 'choices', k] })),
  );
  procedure.choices.forEach((choice, c) => {
    const here = [...path, 'choices', c];
    uniqueIds(
      to,
      'branch',
      choice.branches.map((row, k) => ({ row, path: [...here, 'branches', k] })),
    );
    choice.branches.forEach((branch, b) => {
      const where = `${choice.id}/${branch.id}`;
      branch.steps.forEach((step, k) => {
        const at = [...here, 'branches', b, 'steps', k];
        if (known(to, 'step', step, steps, at)) once(step, 'step', where, at);
      });
      branch.links.forEach((link, k) => {
        const at = [...here, 'branches', b, 'links', k];
        if (known(to, 'link', link, links, at)) once(link, 'link', where, at);
      });
    });
  });
}

/** Steps, links, windows, circles and choices of procedures. */
export function procedureFaults(to: Report, yard: Yard, shelf: Shelf): void {
  uniqueIds(
    to,
    'procedure',
    yard.procedures.map((row, k) => ({ row, path: ['procedures', k] })),
  );
  yard.procedures.forEach((procedure, p) => {
    const path = ['procedures', p];
    uniqueIds(
      to,
      'step',
      procedure.steps.map((row, k) => ({ row, path: [...path, 'steps', k] })),
    );
    uniqueIds(
      to,
      'link',
      procedure.links.map((row, k) => ({ row, path: [...path, 'links', k] })),
    );
    stepFaults(to, procedure, shelf, path);
    linkFaults(to, procedure, shelf, path);
    choiceFaults(to, procedure, path);
  });
}

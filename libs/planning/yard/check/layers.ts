import type { Part } from '../boats.ts';
import type { Quantity } from '../procedures.ts';
import type { Yard } from '../yard.ts';
import { byId, known, type Report } from './faults.ts';

type Path = readonly PropertyKey[];

/** Materials of a part's layers, and their order. */
export function layerFaults(to: Report, yard: Yard, part: Part, path: Path): void {
  const materials = byId(yard.materials);
  part.layers.forEach((layer, k) => {
    const here = [...path, 'layers', k];
    if (layer.material !== null) {
      known(to, 'material', layer.material, materials, [...here, 'material']);
      const system = materials.get(layer.material)?.resinSystem;
      if (system !== undefined && system !== layer.base) {
        to.add(
          'input.field',
          [...here, 'base'],
          `a layer of ${part.name} is ${layer.base}, but ${layer.material} is ${system}`,
          { value: layer.base, cure: 'Correct the base or the material of the layer.' },
        );
      }
    }
    if (k === 0) return;
    const before = part.layers[k - 1].laidAt;
    const late =
      before !== null && (layer.laidAt === null || Date.parse(layer.laidAt) < Date.parse(before));
    if (!late) return;
    to.add(
      'input.field',
      [...here, 'laidAt'],
      `a layer of ${part.name} lies on one that was laid after it`,
      { value: layer.laidAt, cure: 'List the layers as they lie, those of long ago first.' },
    );
  });
}

type Size = 'areaM2' | 'edgeM' | 'jointM';

/** What each kind of quantity is sized by. */
const SIZES: Readonly<Record<Quantity['kind'], Size>> = {
  laminate: 'areaM2',
  tabbing: 'jointM',
  coat: 'areaM2',
  fill: 'areaM2',
  fillet: 'jointM',
  'glue-line': 'edgeM',
};
const WORDS: Readonly<Record<Size, string>> = {
  areaM2: 'area',
  edgeM: 'length of edges',
  jointM: 'length of joints',
};

/** A part of no area (or edge, or joint) that something is weighed for by it; one fault for each size. */
export function sizeFaults(to: Report, yard: Yard, part: Part, path: Path): void {
  const procedures = byId(yard.procedures);
  const told = new Set<Size>();
  for (const job of part.jobs) {
    for (const step of procedures.get(job.procedure)?.steps ?? []) {
      const size = step.quantity && SIZES[step.quantity.kind];
      if (size === null || part[size] > 0 || told.has(size)) continue;
      told.add(size);
      to.add(
        'input.field',
        [...path, size],
        `${part.name} has no ${WORDS[size]}, and ${step.name} of ${job.id} is weighed by it`,
        { value: part[size], cure: `Give the ${WORDS[size]}, or take the quantity from the step.` },
      );
    }
  }
}

import type { Schema } from '../../../api/client.ts';

type Material = Pick<Schema<'Material'>, 'id' | 'name' | 'classId' | 'hardener'>;
type Class = Pick<Schema<'MaterialClass'>, 'id' | 'hardener'>;
interface Uses {
  readonly steps: readonly Pick<Schema<'Step'>, 'material' | 'quantity'>[];
}

/** What procedures mix and nobody can weigh: how much hardener it takes is said nowhere. */
export function unweighed(
  materials: readonly Material[],
  classes: readonly Class[],
  procedures: readonly Uses[],
): readonly Material[] {
  const known = new Set(classes.filter(({ hardener }) => hardener !== null).map(({ id }) => id));
  const mixed = new Set(
    procedures.flatMap(({ steps }) =>
      steps.flatMap(({ material, quantity }) => (quantity === null ? [] : (material ?? []))),
    ),
  );
  return materials.filter(
    ({ id, classId, hardener }) =>
      mixed.has(id) && hardener === null && (classId === null || !known.has(classId)),
  );
}

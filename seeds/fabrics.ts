import type { YardInput } from '#planning/yard/yard.ts';

type FabricInput = NonNullable<YardInput['fabrics']>[number];

const INVENTED = 'Invented demo data sheet, not a real product';

/** Stitched or woven: nothing in them that epoxy would not dissolve. */
export const fabrics: readonly FabricInput[] = [
  {
    id: 'demo-biax-600',
    name: 'Demo biaxial glass 600 g/m² (invented)',
    gramsPerM2: 600,
    resinRatio: 1,
    binder: 'none',
    source: INVENTED,
  },
  {
    id: 'demo-cloth-300',
    name: 'Demo glass cloth 300 g/m² (invented)',
    gramsPerM2: 300,
    resinRatio: 1,
    binder: 'none',
    source: INVENTED,
  },
];

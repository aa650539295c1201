import type { Option } from '../../../form/fields.tsx';
import { optionsOf, useList } from '../lists/lists.ts';

/** What the fields of a step choose from. */
export interface YardLists {
  readonly skills: readonly Option[];
  readonly materials: readonly Option[];
  readonly fabrics: readonly Option[];
  readonly spaces: readonly Option[];
  readonly tools: readonly Option[];
  readonly stocks: readonly Option[];
  readonly barriers: readonly Option[];
  readonly slotLists: readonly Option[];
}

export function useYardLists(): YardLists {
  return {
    skills: optionsOf(useList('skills').data),
    materials: optionsOf(useList('materials').data),
    fabrics: optionsOf(useList('fabrics').data),
    spaces: optionsOf(useList('spaces').data),
    tools: optionsOf(useList('tools').data),
    stocks: optionsOf(useList('stocks').data),
    barriers: optionsOf(useList('barriers').data),
    slotLists: optionsOf(useList('slotLists').data),
  };
}

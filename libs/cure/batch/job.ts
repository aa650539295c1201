import type { CureMaterial } from '../material/material.ts';
import type { Fabric } from './amounts.ts';

/** What a part measures, square metres and metres. */
export interface Sizes {
  readonly areaM2: number;
  readonly edgeM: number;
  readonly jointM: number;
}

interface Wasted {
  /** So many percent are mixed on top, and stay in cups and brushes. */
  readonly wastePercent: number;
}

/** What is to be laid, before the part's sizes are known. */
export type Work = Wasted &
  (
    | {
        /** Over the area: plies of fabric, wetted out. */
        readonly kind: 'laminate';
        readonly plies: readonly { readonly fabric: Fabric; readonly layers: number }[];
      }
    | {
        /** Strips of fabric along the joints, one on the other. */
        readonly kind: 'tabbing';
        readonly plies: readonly { readonly fabric: Fabric; readonly widthMm: number }[];
      }
    | {
        /** Over the area; null: the material's grams per square metre. */
        readonly kind: 'coat';
        readonly gramsPerM2: number | null;
        readonly coats: number;
      }
    | {
        /** Over the area, so thick on average. */
        readonly kind: 'fill';
        readonly mm: number;
      }
    | {
        /** Along the joints, a hollow quarter round in a right angle. */
        readonly kind: 'fillet';
        readonly radiusMm: number;
        readonly sides: number;
      }
    | {
        /** Along the edges, so wide; null: the material's grams per square metre. */
        readonly kind: 'glue-line';
        readonly widthMm: number;
        readonly gramsPerM2: number | null;
      }
  );

export interface BatchJob {
  readonly work: Work;
  readonly sizes: Sizes;
  readonly material: Pick<CureMaterial, 'name' | 'mixedDensity' | 'gramsPerM2'>;
}

import type { Schema } from '../../../api/client.ts';
import type { Changing } from '../record/beginning.ts';
import type { Material } from './material-collection.ts';

export type Sheet = Schema<'MaterialSheet'>;
/** How long a milestone takes, by temperature. */
export type Law = Schema<'MilestoneTimes'>;
export type Milestone = Law['milestone'];
/** Changes some fields of the material. */
export type Change = Changing<Material, Schema<'MaterialPatch'>>;

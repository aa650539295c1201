import type { Schema } from '../../../api/client.ts';

export type Sheet = Schema<'MaterialSheet'>;
/** How long a milestone takes, by temperature. */
export type Law = Schema<'MilestoneTimes'>;
export type Milestone = Law['milestone'];
/** Changes some fields of the material; reads it again where somebody else was quicker. */
export type Change = (patch: Schema<'MaterialPatch'>) => Promise<void>;

import type { CureMaterial } from '../material/material.ts';
import { epoxyFast, epoxySlow } from './epoxy.ts';
import { epoxyFairing, polyesterFairing } from './fairing.ts';
import { finishGelCoat, gelCoat } from './gel-coat.ts';
import { MIXES } from './mixes.ts';
import { finishPolyester, laminatingPolyester } from './polyester.ts';
import { vinylEster } from './vinyl-ester.ts';

/** Of all of the catalogue; a plan keeps it with the values it was made with. */
export const CATALOGUE_VERSION = '1';

/**
 * Generic classes of material. Where nothing trustworthy gives a number there is none, and
 * `missing` names the line of the data sheet that has it. Openings are never from memory or
 * custom alone. An extra slow epoxy is not among them: no time of one was found published.
 */
export const CLASSES: readonly CureMaterial[] = [
  laminatingPolyester,
  finishPolyester,
  gelCoat,
  finishGelCoat,
  vinylEster,
  epoxyFast,
  epoxySlow,
  ...MIXES,
  polyesterFairing,
  epoxyFairing,
].map((material) => ({ ...material, classId: material.id }));

const BY_ID = new Map(CLASSES.map((material) => [material.id, material]));

/** The class of an id, as it stands in the catalogue. */
export const classOf = (id: string): CureMaterial | undefined => BY_ID.get(id);

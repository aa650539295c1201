import { z } from 'zod';
import type { Side } from '../world/side.ts';
import type { World } from '../world/make-world.ts';
import type { Calls } from './calls.ts';

/** What the groups of tests stand on. */
export interface Ground {
  readonly world: World;
  readonly here: Side;
  readonly there: Side;
  readonly calls: Calls;
  /** Of the same service over the same database, as strict as one that everybody can reach. */
  readonly strictCalls: Calls;
  readonly tokenOf: (who: keyof Side['people'], side?: Side) => string;
  /** An address of a yard: `here` unless told. */
  readonly at: (below: string, side?: Side) => string;
}

export type GroundOf = () => Ground;

/** The fields that a problem names. */
export const pathsOf = (told: { readonly json: Readonly<Record<string, unknown>> }): string[] =>
  z
    .object({ errors: z.array(z.object({ path: z.string() })) })
    .parse(told.json)
    .errors.map(({ path }) => path);

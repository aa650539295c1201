import type { Fabric } from '../batch/amounts.ts';
import type { Evidence } from '../evidence/evidence.ts';

/** A reinforcement of the catalogue, with how far its resin ratio can be trusted. */
export interface CatalogueFabric extends Fabric, Evidence {
  readonly binder: 'none' | 'powder' | 'styrene-soluble';
  /** Ratios published that disagree (contradiction X4): the yard enters its own fabric's. */
  readonly published: readonly [low: number, high: number];
}

const mat = (gramsPerM2: number): CatalogueFabric => ({
  id: `csm-${String(gramsPerM2)}`,
  name: `Chopped strand mat ${String(gramsPerM2)} g/m²`,
  gramsPerM2,
  resinRatio: 2.33,
  binder: 'styrene-soluble',
  trust: 'calculated',
  source: '30 % glass by mass; suppliers print 2 and 2.5',
  published: [2, 2.5],
});

const roving = (gramsPerM2: number): CatalogueFabric => ({
  id: `wr-${String(gramsPerM2)}`,
  name: `Woven roving ${String(gramsPerM2)} g/m²`,
  gramsPerM2,
  resinRatio: 1.04,
  binder: 'none',
  trust: 'memory',
  source: 'from memory: 1 at 50 % glass, 1.08 at 48 %',
  published: [1, 1.08],
});

export const FABRICS: readonly CatalogueFabric[] = [
  mat(300),
  mat(450),
  mat(600),
  roving(600),
  roving(800),
  {
    id: 'cloth-300',
    name: 'Glass cloth 300 g/m²',
    gramsPerM2: 300,
    resinRatio: 1,
    binder: 'none',
    trust: 'read',
    source: 'Fibre Glast: cloth takes its own weight of resin',
    published: [1, 1],
  },
  {
    // 17 oz of biaxial and 8 oz of mat per square yard. One supplier's 3 is of the 17 oz alone.
    id: 'biax-mat-850',
    name: 'Biaxial with mat 850 g/m²',
    gramsPerM2: 850,
    resinRatio: 2,
    binder: 'none',
    trust: 'calculated',
    source: 'TotalBoat: 51 oz of resin to a square yard, over the fabric’s true 25 oz',
    published: [1.5, 3],
  },
];

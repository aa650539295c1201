import { figure } from '../evidence/figure.ts';
import type { CureLaw, CureMaterial } from '../material/material.ts';
import { missingOf, single } from './build.ts';
import { EPOXY_CURED, epoxyFast, epoxySlow } from './epoxy.ts';
import { laminatingPolyester } from './polyester.ts';
import { SOURCES } from './sources.ts';
import { vinylEster } from './vinyl-ester.ts';

/** Bonded joints are not loaded for 24 h at 70 °F. */
const loaded: CureLaw = single(
  { milestone: 'handle', trust: 'read', source: SOURCES.exotherm },
  21,
  [1440, 1440],
  'hardness',
);

/** No change of pot life by fillers was found published: the resin's own, and less surely. */
function filled(law: CureLaw): CureLaw {
  const source = `that of the resin without filler, common practice (${law.source})`;
  return { ...law, trust: 'practice', source, spread: Math.max(1.5, law.spread) };
}

/** Resin of a class thickened to glue or fillet: how much filler is in it is the yard's, so the mix has no density. */
function mix(resin: CureMaterial, of: 'glue' | 'fillet'): CureMaterial {
  const pot = resin.milestones['pot-life'];
  const milestones: CureMaterial['milestones'] = {
    ...(pot === undefined ? {} : { 'pot-life': filled(pot) }),
    ...(resin.base === 'epoxy' ? { handle: loaded, cured: EPOXY_CURED } : {}),
  };
  return {
    ...resin,
    id: `${resin.id}-${of}`,
    name: `${resin.name}: ${of} mix`,
    use: 'glue',
    milestones,
    missing: missingOf(milestones, {
      handle: 'time until clamps come off and the joint may be loaded',
      ...(of === 'fillet'
        ? { 'bond-closes': 'time until glass may no longer be laid on the fillet without sanding' }
        : { 'open-time': 'open assembly time of the glue line' }),
    }),
    limits: { ...resin.limits, dampAir: 'warn' },
    mixedDensity: null,
    gramsPerM2:
      of === 'glue' && resin.base === 'epoxy'
        ? figure(370, 'read', `glue line, 2.7 m²/kg (${SOURCES.boatConstruction})`)
        : null,
  };
}

export const MIXES: readonly CureMaterial[] = [
  laminatingPolyester,
  vinylEster,
  epoxyFast,
  epoxySlow,
].flatMap((resin) => [mix(resin, 'glue'), mix(resin, 'fillet')]);

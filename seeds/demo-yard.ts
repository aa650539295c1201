import type { YardInput } from '#planning/yard/yard.ts';
import { boats } from './demo/boats.ts';
import { observations, readings } from './demo/observed.ts';
import { people } from './demo/people.ts';
import { spaces } from './demo/spaces.ts';
import { crane, surveyor } from './demo/outside.ts';
import { fabrics } from './fabrics.ts';
import { materials } from './materials.ts';
import { inventedOutdoor } from './outdoor.ts';
import { bothFaces, ownWipe } from './procedures/prepared.ts';
import { procedures, skills } from './procedures.ts';

/** Epoxies stand in the store at the warm end of the benches, two hours behind its air. */
const kept = (material: (typeof materials)[number]) =>
  material.resinSystem === 'epoxy'
    ? { ...material, keptIn: 'bench-north', keptLagHours: 2 }
    : material;

/** A small yard with three boats, three weeks of work. Everybody and everything in it is invented. */
export const demoYard: YardInput = {
  format: 'curewright-yard',
  version: 1,
  id: 'demo-yard',
  name: 'Anse Verte boat yard (demo)',
  timeZone: 'Europe/Paris',
  planFrom: '2026-11-30T07:00:00+01:00',
  horizonDays: 35,
  powerWatts: 9000,
  outdoor: inventedOutdoor('2026-11-23T00:00:00+01:00', 24 * 44),
  skills,
  people: [...people],
  spaces: [...spaces],
  tools: [
    {
      id: 'extractor',
      name: 'Dust extractor',
      count: 3,
      away: [{ from: '2026-12-07T07:00:00+01:00', to: '2026-12-08T17:00:00+01:00', count: 1 }],
    },
    { id: 'spray-gun', name: 'Gel-coat spray gun', count: 1 },
    { id: 'clamp-set', name: 'Clamps and shores', count: 4 },
    { id: 'laminating-table', name: 'Laminating table', count: 2 },
  ],
  stocks: [{ id: 'gel-coat', name: 'Gel coat in the store', unit: 'kg', total: 9 }],
  barriers: [
    {
      id: 'companionway-sheet',
      name: 'Dust sheet in the companionway of Kornog',
      blocks: [{ from: 'shed', to: 'kornog-inside' }],
    },
  ],
  slotLists: [crane, surveyor],
  deliveries: [
    { id: 'foam-core', name: 'Foam core for Kornog', expected: '2026-12-01T11:00:00+01:00' },
  ],
  materials: materials.map(kept),
  fabrics: [...fabrics],
  readings: [...readings],
  observations: [...observations],
  procedures: procedures.map((one) => ownWipe(bothFaces(one))),
  boats: [...boats],
};

import type { ComponentType } from 'preact';
import lazy from 'preact-iso/lazy';
import type { Group, Room } from './room.ts';

/** All rooms of the set-up, by what they are for; each is loaded when somebody goes there. */
export const rooms: Readonly<
  Record<Room, { readonly group: Group; readonly Page: ComponentType }>
> = {
  people: { group: 'plan', Page: lazy(() => import('./people/people.tsx')) },
  skills: { group: 'plan', Page: lazy(() => import('./skills/skills.tsx')) },
  spaces: { group: 'plan', Page: lazy(() => import('./spaces/spaces.tsx')) },
  materials: { group: 'plan', Page: lazy(() => import('./materials/materials.tsx')) },
  fabrics: { group: 'plan', Page: lazy(() => import('./fabrics/fabrics.tsx')) },
  procedures: { group: 'plan', Page: lazy(() => import('./procedures/procedures.tsx')) },
  boats: { group: 'plan', Page: lazy(() => import('./boats/boats.tsx')) },
  tools: { group: 'things', Page: lazy(() => import('./things/tools.tsx')) },
  stocks: { group: 'things', Page: lazy(() => import('./things/stocks.tsx')) },
  barriers: { group: 'things', Page: lazy(() => import('./things/barriers.tsx')) },
  deliveries: { group: 'things', Page: lazy(() => import('./things/deliveries.tsx')) },
  'slot-lists': { group: 'things', Page: lazy(() => import('./things/slot-lists.tsx')) },
  outdoor: { group: 'air', Page: lazy(() => import('./air/outdoor.tsx')) },
  readings: { group: 'air', Page: lazy(() => import('./air/readings.tsx')) },
  yard: { group: 'office', Page: lazy(() => import('./yard/yard.tsx')) },
  live: { group: 'office', Page: lazy(() => import('./office/live.tsx')) },
  access: { group: 'office', Page: lazy(() => import('./office/access.tsx')) },
  calendars: { group: 'office', Page: lazy(() => import('./office/calendars.tsx')) },
  'program-keys': { group: 'office', Page: lazy(() => import('./office/program-keys.tsx')) },
  productivity: { group: 'office', Page: lazy(() => import('./office/productivity.tsx')) },
  warnings: { group: 'office', Page: lazy(() => import('./office/warnings.tsx')) },
};

export const isRoom = (name: string): name is Room => Object.hasOwn(rooms, name);

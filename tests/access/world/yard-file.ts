import { addDays, weekStart } from '#calendar/local-date.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { twoBoats } from '../../support/two-boats.ts';

/** So many of what can be taken away, since each call that may does take one. */
export const spareCount = 40;

const spares = Array.from({ length: spareCount }, (_, k) => k);

/** People to be invited: one invitation of each can be open. */
export const guests = Array.from({ length: 12 }, (_, k) => `guest-${k}`);

/** Nobody earns so much: the digits are found wherever a wage is shown. */
export const wage = 7_654_321;

/**
 * The yard of two boats and two owners with one record more of every kind that a yard file
 * knows, and plenty of readings and observations.
 */
function fullYard(today: string): YardInput {
  const yard = twoBoats(today);
  const monday = addDays(weekStart(today), -7);
  const at = (minute: number): string =>
    new Date(Date.parse(`${monday}T08:00:00Z`) + minute * 60_000).toISOString();
  return {
    ...yard,
    people: [
      ...(yard.people ?? []).map((person) => ({
        ...person,
        hourlyCost: wage,
        overtimeHourlyExtra: wage,
      })),
      ...guests.map((id) => ({ id, name: 'Guest', roles: ['owner' as const] })),
    ],
    spaces: (yard.spaces ?? []).map((space) =>
      space.id === 'bay' ? { ...space, dustReaches: ['bay', 'hull'] } : space,
    ),
    stocks: [{ id: 'cloth-roll', name: 'Cloth', unit: 'm', total: 200 }],
    barriers: [
      {
        id: 'curtain',
        name: 'Curtain',
        closed: true,
        blocks: [{ from: 'bay', to: 'hull' }],
      },
    ],
    slotLists: [
      {
        id: 'crane-days',
        name: 'Crane',
        kind: 'crane',
        slots: [{ from: at(0), to: at(600) }],
      },
    ],
    deliveries: [{ id: 'winch', name: 'Winch', expected: at(3_000) }],
    fabrics: [{ id: 'biax', name: 'Biaxial', gramsPerM2: 450, resinRatio: 1, source: 'invented' }],
    readings: spares.map((k) => ({
      id: `reading-${k}`,
      space: 'bay',
      at: at(10 * k),
      celsius: 19,
      note: 'by the door',
    })),
    observations: spares.map((k) => ({
      id: `finding-${k}`,
      material: 'epoxy',
      milestone: 'sandable',
      found: 'already',
      space: 'bay',
      laidAt: at(0),
      at: at(4_000 + k),
      note: 'by the door',
    })),
  };
}

/** Texts that people write, in which a mark shows whose they are. */
const prose = new Set(['name', 'note', 'source']);

/**
 * The full yard with every id begun by `mark`, and `secret` in every text: where one of them turns
 * up, it came from this yard. Addresses are `<person>@<mark>.test`.
 */
export function markedYard(today: string, mark: string, secret: string): YardInput {
  const yard = fullYard(today);
  const ids = new Set<string>();
  JSON.stringify(yard, (key, value: unknown) => {
    if (key === 'id' && typeof value === 'string') ids.add(value);
    return value;
  });
  const text = JSON.stringify(yard, (key, value: unknown) => {
    if (typeof value !== 'string') return value;
    if (prose.has(key)) return `${value} ${secret}`;
    if (key === 'email') return `${value.split('@')[0]}@${mark}.test`;
    // The base of a resin has the name of one of the materials.
    return ids.has(value) && key !== 'resinSystem' ? `${mark}-${value}` : value;
  });
  return JSON.parse(text) as YardInput;
}

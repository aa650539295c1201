import { addDays, weekStart } from '#calendar/local-date.ts';
import { yardSchema, type Yard, type YardInput } from '#planning/yard/yard.ts';
import { smallYard } from '../../support/small-yard.ts';

const builders = 50;
const bays = 40;
/** Each is laid up and faired: two tasks. */
const parts = 430;

const setPoints = [{ weekdays: [1, 2, 3, 4, 5, 6, 7], from: '00:00', celsius: 25 }];

const two = (k: number): string => String(k).padStart(3, '0');

/**
 * A yard so large that more than 800 tasks fall into this week: fifty builders at work from Monday on,
 * wet and dusty in turn, in forty bays whose dust keeps to itself.
 */
export function weekYard(): Yard {
  const small = smallYard('week', 'Large yard');
  const monday = weekStart(new Date().toISOString().slice(0, 10));
  const from = `${monday}T00:00:00Z`;
  const [bay] = small.spaces ?? [];
  const [procedure] = small.procedures ?? [];
  const [boat] = small.boats ?? [];
  const bram = small.people?.find(({ id }) => id === 'bram');
  if (bram === undefined) throw new Error('the small yard has a builder');
  const celsius = Array.from({ length: 24 * 40 }, (_, hour) => 14 + 6 * Math.sin(hour / 24));
  return yardSchema.parse({
    ...small,
    planFrom: from,
    outdoor: { from, celsius, source: 'invented' },
    people: [
      ...(small.people ?? []).filter(({ id }) => id !== 'bram'),
      ...Array.from({ length: builders }, (_, k) => ({
        ...bram,
        id: `hand-${two(k)}`,
        name: `Hand ${two(k)}`,
        email: k === 0 ? 'hand@yard.test' : null,
      })),
    ],
    spaces: Array.from({ length: bays }, (_, k) => ({
      ...bay,
      id: `bay-${two(k)}`,
      name: `Bay ${two(k)}`,
      climate: { kind: 'heated', setPoints },
      room: 6,
      dustReaches: [],
      settlingMinutes: 0,
    })),
    tools: [],
    boats: Array.from({ length: 10 }, (_, b) => ({
      ...boat,
      id: `boat-${two(b)}`,
      name: `Boat ${two(b)}`,
      refits: [
        {
          id: `refit-${two(b)}`,
          name: 'Refit',
          release: from,
          promised: `${addDays(monday, 4)}T16:00:00Z`,
          parts: Array.from({ length: parts / 10 }, (_, p) => {
            const k = b * (parts / 10) + p;
            return {
              id: `panel-${two(k)}`,
              name: `Panel ${two(k)}`,
              space: `bay-${two(k % bays)}`,
              areaM2: 1 + (k % 3) / 2,
              jobs: [{ id: `job-${two(k)}`, procedure: procedure.id }],
            };
          }),
        },
      ],
    })),
  } satisfies YardInput);
}

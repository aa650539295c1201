import { counted, inLanguage } from './language.ts';

/** The rooms of tools, stocks, doors and screens, deliveries and slots. */
const en = {
  tool: {
    isNew: 'New tool',
    line: (count: number) => `${String(count)} of it`,
    count: 'How many there are',
    hint: 'Tools, and whatever else is short: moulds, clamps, stands, places on a floor.',
    away: 'Lent out or being mended',
    awayWhat: 'Time away',
    addAway: 'Add a time',
  },
  stock: {
    isNew: 'New stock',
    line: (total: string, unit: string) => `${total} ${unit}`,
    hint: 'What each task takes its share of, as its procedure says.',
    unit: 'Counted in',
    unitHint: 'kg, l, m, sheets',
    total: 'How much there is',
  },
  barrier: {
    isNew: 'New door or screen',
    line: (ways: number) =>
      counted(ways, { one: 'bars # way of dust', other: 'bars # ways of dust' }),
    hint: 'Tasks open and close it, as their procedure says; while it is closed, dust does not pass.',
    stands: 'At the beginning it stands',
    closed: 'closed',
    open: 'open',
    ways: 'Ways of dust that it bars',
    way: 'Way of dust',
    addWay: 'Add a way',
    between: (from: string, to: string) => `${from} → ${to}`,
    noWays:
      'No dust goes from one space to another yet. Say of a space which others its dust reaches, then come back.',
    toSpaces: 'Spaces',
  },
  delivery: {
    isNew: 'New delivery',
    line: (when: string) => `expected ${when}`,
    hint: 'Steps that wait for it are planned after it has come.',
    expected: 'Expected',
  },
  slot: {
    isNew: 'New list of slots',
    kinds: {
      crane: 'crane',
      tide: 'tide',
      truck: 'truck',
      surveyor: 'surveyor',
      subcontractor: 'subcontractor',
    },
    kind: 'What it is',
    hint: 'Booked chances in the outside world; work that needs one lies within it.',
    line: (kind: string, count: number) =>
      `${kind}, ${counted(count, { one: '# slot', other: '# slots' })}`,
    slots: 'Slots',
    slot: 'Slot',
    add: 'Add a slot',
    from: 'From',
    to: 'Until',
    price: 'Price, once',
    notice: 'To be booked ahead by',
    hours: 'h',
    booked: 'Booked already',
  },
} as const;

export const things = inLanguage({ en });

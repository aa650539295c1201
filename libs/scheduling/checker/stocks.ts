import type { Reading } from './reading.ts';
import type { Violation } from './violation.ts';

/** What all that is present consumes together, frozen work included. */
export function stocks(reading: Reading): Violation[] {
  return reading.problem.stocks.flatMap(({ id, total }, stock): Violation[] => {
    let sum = 0;
    const activities: number[] = [];
    for (const { placement, mode } of reading.work)
      for (const { amount } of mode.consumes.filter((one) => one.stock === stock)) {
        sum += amount;
        if (amount > 0) activities.push(placement.activity);
      }
    if (sum <= total) return [];
    return [
      {
        kind: 'stock',
        activities: [...new Set(activities)],
        constraint: { kind: 'stock', stock },
        message: `${sum} of ${id} are consumed and there are ${total}`,
      },
    ];
  });
}

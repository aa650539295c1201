import { fault, type Fault } from '#kernel/error.ts';

import { isOn } from './regimes.ts';

/** Something that draws power from minute `from` to minute `to`; `path` says where it stands in the input. */
export interface PowerUse {
  readonly name: string;
  readonly path: string;
  readonly from: number;
  readonly to: number;
  readonly watts: number;
}

/** Watts drawn together at a minute. */
export const powerAt = (uses: readonly PowerUse[], minute: number): number =>
  uses.reduce((sum, use) => (isOn(use, minute) ? sum + use.watts : sum), 0);

/**
 * One fault for each thing that is switched on when the yard's limit does not allow it, at its
 * path, naming all that is on, the sum and the moment (`when` puts a minute in words).
 */
export function powerFaults(
  uses: readonly PowerUse[],
  limitWatts: number,
  when: (minute: number) => string,
): Fault[] {
  return uses.flatMap((use) => {
    const watts = powerAt(uses, use.from);
    if (use.watts === 0 || !(use.from < use.to) || watts <= limitWatts) return [];
    const names = uses
      .filter((other) => other.watts > 0 && isOn(other, use.from))
      .map((other) => `${other.name} (${other.watts} W)`);
    const message = `At ${when(use.from)} ${names.join(', ')} draw ${watts} W together, more than the yard's ${limitWatts} W`;
    const cure =
      'Switch one of them on at another time, or raise the yard’s limit if the supply allows it.';
    return [fault('input.field', `${use.path}.watts`, message, { value: use.watts, cure })];
  });
}

import type {
  Consumption,
  Problem,
  Resource,
  ResourceDemand,
  SlotList,
  Space,
} from '../problem.ts';
import type { Report } from './report.ts';

export function resource(to: Report, path: string, one: Resource, problem: Problem): void {
  const { steps, calendar } = one;
  if (calendar !== null)
    to.index(`${path}.calendar`, calendar, problem.calendars.length, 'calendar');
  if (steps.length === 0 || steps[0].from !== 0)
    to.add(
      'input.field',
      `${path}.steps`,
      'The first step is not at minute 0',
      steps[0]?.from ?? null,
      'Begin with a step from 0.',
    );
  steps.forEach(({ from, capacity }, i) => {
    const own = `${path}.steps[${i}]`;
    to.whole(`${own}.from`, from, 0);
    to.whole(`${own}.capacity`, capacity, 0);
    if (i > 0 && from <= steps[i - 1].from)
      to.add(
        'input.field',
        `${own}.from`,
        'It is not after the step before',
        from,
        'Sort the steps.',
      );
  });
}

export function space(to: Report, path: string, one: Space, problem: Problem): void {
  to.whole(`${path}.settling`, one.settling, 0);
  one.dustReaches.forEach((reach, i) => {
    const own = `${path}.dustReaches[${i}]`;
    to.index(`${own}.space`, reach.space, problem.spaces.length, 'space');
    if (reach.barrier !== null)
      to.index(`${own}.barrier`, reach.barrier, problem.barriers.length, 'barrier');
  });
}

export function slotList(to: Report, path: string, { slots }: SlotList): void {
  slots.forEach(({ start, end, cost, bookBy }, i) => {
    const own = `${path}.slots[${i}]`;
    const whole = [to.whole(`${own}.start`, start), to.whole(`${own}.end`, end)];
    to.whole(`${own}.cost`, cost, 0);
    to.whole(`${own}.bookBy`, bookBy);
    if (!whole.includes(false) && start >= end)
      to.add('input.field', own, 'It ends before it has begun', { start, end }, 'End it later.');
    if (i > 0 && start < slots[i - 1].start)
      to.add(
        'input.field',
        `${own}.start`,
        'It starts before the slot before it',
        start,
        'Sort the slots by start.',
      );
  });
}

/** The most of a resource that there ever is. */
export const most = ({ steps }: Resource): number =>
  Math.max(0, ...steps.map((step) => step.capacity));

interface Ask {
  readonly of: number;
  readonly amount: number;
}

/** Amounts of one mode, together no more than there is. */
function asked(
  to: Report,
  path: string,
  kind: 'resource' | 'stock',
  list: readonly Ask[],
  supply: readonly { readonly id: string; readonly limit: number }[],
): void {
  const sums = new Map<number, number>();
  list.forEach(({ of, amount }, i) => {
    const own = `${path}[${i}]`;
    const known = to.index(`${own}.${kind}`, of, supply.length, kind);
    const whole = to.whole(`${own}.amount`, amount, 0);
    if (!known || !whole) return;
    const sum = (sums.get(of) ?? 0) + amount;
    sums.set(of, sum);
    const { id, limit } = supply[of];
    if (sum > limit)
      to.add(
        'input.field',
        `${own}.amount`,
        `${sum} of ${id} are asked for and there are never more than ${limit}`,
        amount,
        `Ask for less, or raise the ${kind === 'resource' ? 'capacity' : 'total'}.`,
      );
  });
}

export function demands(
  to: Report,
  path: string,
  list: readonly ResourceDemand[],
  { resources }: Problem,
): void {
  const supply = resources.map((one) => ({ id: one.id, limit: most(one) }));
  const all = list.map(({ resource: of, amount }) => ({ of, amount }));
  asked(to, path, 'resource', all, supply);
}

export function consumption(
  to: Report,
  path: string,
  list: readonly Consumption[],
  { stocks }: Problem,
): void {
  const supply = stocks.map(({ id, total }) => ({ id, limit: total }));
  const all = list.map(({ stock: of, amount }) => ({ of, amount }));
  asked(to, path, 'stock', all, supply);
}

import type { Resource, ResourceDemand, Problem, Space } from '../problem.ts';
import type { Report } from './report.ts';

export function resource(to: Report, path: string, { steps }: Resource): void {
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
  one.dustReaches.forEach((other, i) => {
    to.index(`${path}.dustReaches[${i}]`, other, problem.spaces.length, 'space');
  });
}

/** The demands of one mode, together no more than the most that there ever is. */
export function demands(
  to: Report,
  path: string,
  list: readonly ResourceDemand[],
  problem: Problem,
): void {
  const asked = new Map<number, number>();
  list.forEach((demand, i) => {
    const own = `${path}[${i}]`;
    const known = to.index(
      `${own}.resource`,
      demand.resource,
      problem.resources.length,
      'resource',
    );
    const whole = to.whole(`${own}.amount`, demand.amount, 0);
    if (!known || !whole) return;
    const sum = (asked.get(demand.resource) ?? 0) + demand.amount;
    asked.set(demand.resource, sum);
    const { id, steps } = problem.resources[demand.resource];
    const most = Math.max(0, ...steps.map((step) => step.capacity));
    if (sum > most)
      to.add(
        'input.field',
        `${own}.amount`,
        `${sum} of ${id} are asked for and there are never more than ${most}`,
        demand.amount,
        'Ask for less, or raise the capacity.',
      );
  });
}

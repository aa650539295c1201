import { expect, it } from 'vitest';
import { compile } from '../compile/compile.ts';
import { smallYard } from '../testing/small-yard.ts';
import { inTheirSpaces } from './in-space.ts';
import { makeWorkload } from './make.ts';

const at = (percent: number) =>
  smallYard((yard) => {
    yard.spaces[0].workPercent = percent;
  });

it('leaves work alone where the space asks for nothing', () => {
  const yard = at(100);
  const workload = makeWorkload(yard);
  expect(inTheirSpaces(yard, workload)).toBe(workload);
});

it('takes the percentage in whole minutes, rounded up, and of what is left as well', () => {
  const yard = at(110);
  const workload = makeWorkload(yard);
  const [first, ...others] = workload.tasks;
  const begun = { ...workload, tasks: [{ ...first, workMinutes: 30, leftMinutes: 15 }, ...others] };
  const [here] = inTheirSpaces(yard, begun).tasks;
  expect(here).toMatchObject({ workMinutes: 33, leftMinutes: 17 });
});

it('is what a plan reckons with', () => {
  const work = (percent: number): number[] => {
    const yard = at(percent);
    const { problem } = compile({ yard, workload: makeWorkload(yard) });
    return problem.activities.map(({ modes }) => modes[0].work);
  };
  const [plain, cramped] = [work(100), work(200)];
  expect(plain.some((minutes) => minutes > 0)).toBe(true);
  expect(cramped).toEqual(plain.map((minutes) => 2 * minutes));
});

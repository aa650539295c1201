import { duration } from '../../compile/trace/rows.ts';
import type { Task } from '../../workload/workload.ts';
import { canCome, quickest, type Able, type Asked } from './coming.ts';
import type { Place } from './place.ts';

const list = new Intl.ListFormat('en');
const then = 'when it could begin';

type Kept = 'unable' | 'other work' | 'shut' | 'too short' | 'away';

/** What keeps one of those whom the foreman has set; null: nothing. */
function keptBy(one: Able | undefined, asked: Asked): Kept | null {
  if (one === undefined) return 'unable';
  const begins = (relaxed: Asked): boolean => one.begins(relaxed).length > 0;
  if (begins(asked)) return null;
  if (begins({ ...asked, busy: undefined })) return 'other work';
  if (begins({})) return 'shut';
  return begins({ briefly: true }) ? 'too short' : 'away';
}

interface Nobody {
  readonly next: Task;
  readonly able: readonly Able[];
  readonly asked: Asked;
  readonly place: Place;
}

const spaceOf = ({ next, place }: Nobody): string => place.rows.spaceName(next.space);
const lengthOf = ({ next, place }: Nobody): string =>
  `the ${duration(quickest(next, place))} that it takes`;

/** Others could come: why those do not whom the foreman has set. */
function whyThose(nobody: Nobody): string {
  const { next, able, asked, place } = nobody;
  const nameAll = (ids: readonly string[]): string => list.format(ids.map(place.rows.personName));
  const byWhy = Map.groupBy(next.crew, (id) =>
    keptBy(
      able.find((one) => one.id === id),
      asked,
    ),
  );
  const first = [...byWhy].flatMap(([why, ids]) => (why === null ? [] : { why, ids })).at(0);
  if (first === undefined)
    return `the foreman has set it for ${nameAll(next.crew)}, and not all whom it takes are there at once`;
  const are = first.ids.length > 1 ? 'are' : 'is';
  const words: Record<Kept, string> = {
    unable: 'who cannot do it',
    'other work': 'whom other work keeps from it',
    shut: `and ${spaceOf(nobody)} is shut when they could begin`,
    'too short': `who ${are} not there for ${lengthOf(nobody)}`,
    away: `who ${are} not at work ${then}`,
  };
  return `the foreman has set it for ${nameAll(first.ids)}, ${words[first.why]}`;
}

/** Why no crew comes to a task in time: what lies deepest is said. */
export function whyNobody(nobody: Nobody): string {
  const { next, able, asked } = nobody;
  const crewMin = Math.max(1, next.crewMin);
  const anybody = { crewMin, crew: [] };
  if (next.crew.length > 0 && canCome(anybody, able, asked)) return whyThose(nobody);
  if (able.length === 0) return 'nobody here can do it';
  if (able.every(({ learns }) => learns)) return 'only learners here can do it';
  if (able.length < crewMin) return 'too few here can do it';
  if (canCome(anybody, able, { ...asked, busy: undefined }))
    return `other work keeps ${crewMin > 1 ? 'too many of ' : ''}those who can do it from it`;
  if (canCome(anybody, able, {}))
    return `${spaceOf(nobody)} is shut when those who can do it could begin`;
  const learnersToo = { ...anybody, learnersDo: true };
  const briefly = { briefly: true };
  if (canCome(anybody, able, briefly)) {
    const few = crewMin > 1 ? 'too few are' : 'nobody is';
    const there = canCome(learnersToo, able, {}) ? 'only learners are' : few;
    return `of those at work ${there} there for ${lengthOf(nobody)}`;
  }
  if (canCome(learnersToo, able, briefly)) return `only learners are at work ${then}`;
  const some = canCome({ ...learnersToo, crewMin: 1 }, able, briefly);
  return `${some ? 'too few' : 'none'} of those who can do it are at work ${then}`;
}

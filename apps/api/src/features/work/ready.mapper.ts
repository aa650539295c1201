import { standsAs } from '#live/life/stands.ts';
import { utcOf } from '#persistence/rows.ts';
import type {
  ReadyTask as ReadyFact,
  WaitingTask as WaitingFact,
} from '#planning/decode/ready/ready.ts';
import { briefingSchema, type ReadyTask, type WaitingTask } from './ready.contract.ts';
import type { Eyes } from './ready.eyes.ts';

type Fact = ReadyFact | WaitingFact;
type Context = Pick<ReadyTask, 'planned' | 'plannedForMe' | 'claim' | 'notForMe' | 'state'>;

function contextOf(fact: Fact, eyes: Eyes): Context {
  const { taskId } = fact;
  const task = eyes.planned(taskId);
  const claim = eyes.claim(taskId);
  return {
    state: standsAs({ ...eyes.life(taskId), claim }, () => (fact.isReady ? null : fact)),
    planned: task ? { start: task.start, finish: task.finish, crew: [...task.crew] } : null,
    plannedForMe: task?.crew.some(({ personId }) => personId === eyes.memberId) ?? false,
    claim: claim && {
      id: claim.id,
      status: claim.status,
      crew: claim.crew.map((id) => ({ id, name: eyes.name(id) })),
      lapsesAt: claim.lapsesAt && utcOf(claim.lapsesAt),
    },
    notForMe: eyes.notFor(taskId),
  };
}

/** Without what the state says. */
const plain = <F extends Fact>({
  isReady: _r,
  isPaused: _p,
  notes,
  ...rest
}: F): Omit<F, 'isReady' | 'isPaused' | 'notes'> & { notes: string[] } => ({
  ...rest,
  notes: [...notes],
});

type Own = Omit<ReadyTask, keyof Context>;
const shown = new WeakMap<ReadyFact, Own>();

/** What of it is the same for everybody: made once for as long as the fact is one. */
function ownOf(fact: ReadyFact): Own {
  const known = shown.get(fact);
  if (known !== undefined) return known;
  const made = { ...plain(fact), ...briefingSchema.parse(fact) };
  shown.set(fact, made);
  return made;
}

export const showReady = (fact: Fact | null, eyes: Eyes): ReadyTask[] =>
  fact?.isReady === true ? [{ ...ownOf(fact), ...contextOf(fact, eyes) }] : [];

export function showWaiting(fact: Fact | null, eyes: Eyes): WaitingTask[] {
  if (fact?.isReady !== false) return [];
  return [{ ...plain(fact), ...contextOf(fact, eyes) }];
}

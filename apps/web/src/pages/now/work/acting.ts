import { useCallback, useState } from 'preact/hooks';
import type { Schema } from '../../../api/client.ts';
import { freshKey } from '../../../api/fresh-key.ts';
import type { Problem } from '../../../api/problem.ts';
import type { Command, Deed, WorkKind } from '../../../offline/deed.ts';
import { fallen, unsent } from '../../../offline/queue.ts';
import type { Outcome } from '../../../offline/outcome.ts';
import { act, withdraw } from '../../../offline/sender.ts';
import { person } from '../../../session/session.ts';
import { now as texts } from '../../../texts/now.ts';
import type { Mine } from './mine.ts';

export type WorkCommand = Extract<Command, { kind: WorkKind }>;

/** Something that was not done, and why. */
export interface Refusal {
  readonly mine: Mine | null;
  readonly command: Command | null;
  readonly claimId: string | null;
  readonly problem: Problem | null;
  /** It is kept, and the foreman decides. */
  readonly held: Schema<'TakenReport'>['reasons'];
}

/** The last thing done, while it may be taken back. */
export interface Last {
  /** Of its deed. */
  readonly key: string;
  readonly taskId: string;
  readonly name: string;
  readonly words: string;
}

export interface Taking {
  readonly mine: Mine;
  readonly isBegun: boolean;
}

export interface Acting {
  readonly refusal: Refusal | null;
  readonly last: Last | null;
  readonly forget: () => void;
  readonly forgetLast: () => void;
  /** Of which task more is asked; it stays while what is reported of it shows already. */
  readonly more: Mine | null;
  readonly askMore: (mine: Mine | null) => void;
  /** Reports work; what it makes of the page shows at once. */
  readonly work: (mine: Mine, command: WorkCommand) => Promise<Outcome>;
  /** Takes back the last thing done: not sent yet, it never is; else it is undone as a report of its own. */
  readonly takeBack: () => Promise<void>;
  /** Takes a task, and begins it if so; work for several asks for whom first. */
  readonly take: (mine: Mine, isBegun: boolean) => Promise<void>;
  /** What is to be taken, where it is asked with whom. */
  readonly taking: Taking | null;
  readonly takeWith: (taking: Taking, crew: readonly string[]) => Promise<Outcome>;
  readonly leaveIt: () => void;
  readonly tell: (deed: Deed, words: string) => Promise<Outcome>;
}

/** What somebody does about their work. `done`: the service has it, so that it is read anew. */
export function useActing(yardId: string, done: () => void): Acting {
  const accountId = person.value?.id ?? '';
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [last, setLast] = useState<Last | null>(null);
  const [taking, setTaking] = useState<Taking | null>(null);
  const [more, askMore] = useState<Mine | null>(null);

  const tell = useCallback(
    async (
      deed: Deed,
      words: string,
      mine: Mine | null = null,
      key: string = freshKey(),
    ): Promise<Outcome> => {
      const outcome = await act({ accountId, yardId, key }, deed, words);
      if (outcome.how === 'refused' || outcome.how === 'held') {
        setLast((now) => (now?.key === key ? null : now));
      }
      const report = deed.kind === 'report' ? deed : null;
      const about = {
        mine,
        command: report?.command ?? null,
        claimId: report?.claimId ?? null,
      };
      if (outcome.how === 'refused') {
        setRefusal({ ...about, problem: outcome.problem, held: [] });
      } else if (outcome.how === 'held') {
        setRefusal({ ...about, problem: null, held: outcome.reasons });
      }
      if (outcome.how !== 'kept') done();
      return outcome;
    },
    [accountId, yardId, done],
  );

  const work: Acting['work'] = async (mine, command) => {
    const words = texts.done(command.kind, mine.name);
    const key = freshKey();
    if (command.kind === 'undo') setLast(null);
    else setLast({ key, taskId: mine.taskId, name: mine.name, words });
    const deed: Deed = { kind: 'report', command, claimId: mine.claimId };
    return tell(deed, words, mine, key);
  };

  const claim = async ({ mine, isBegun }: Taking, crew?: readonly string[]): Promise<Outcome> => {
    const { taskId } = mine;
    const whom = crew === undefined ? {} : { crew: [...crew] };
    const claimed = await work(mine, { kind: 'claim', taskId, ...whom });
    if (!isBegun || (claimed.how !== 'done' && claimed.how !== 'kept')) return claimed;
    const claimId = claimed.how === 'done' ? claimed.claimId : null;
    return work({ ...mine, claimId, state: 'claimed' }, { kind: 'start', taskId });
  };

  return {
    refusal,
    // Held or refused, it may be long after it was kept, there is nothing to be taken back.
    last: last !== null && fallen.value.has(last.key) ? null : last,
    forget: () => setRefusal(null),
    forgetLast: () => setLast(null),
    more,
    askMore,
    work,
    tell,
    takeBack: async () => {
      if (last === null) return;
      setLast(null);
      const { taskId, name } = last;
      const waits = unsent.peek().findLast(({ deed }) => isWorkOf(deed, taskId));
      if (waits !== undefined && (await withdraw(waits).catch(() => false))) return;
      const deed: Deed = { kind: 'report', command: { kind: 'undo', taskId }, claimId: null };
      await tell(deed, texts.done('undo', name));
    },
    take: async (mine, isBegun) => {
      if ((mine.ready?.crewMin ?? 1) > 1) setTaking({ mine, isBegun });
      else await claim({ mine, isBegun });
    },
    taking,
    takeWith: async (one, crew) => {
      const outcome = await claim(one, crew);
      if (outcome.how === 'done' || outcome.how === 'kept') setTaking(null);
      return outcome;
    },
    leaveIt: () => setTaking(null),
  };
}

const isWorkOf = (deed: Deed, taskId: string): boolean =>
  deed.kind === 'report' &&
  deed.command.kind !== 'reading' &&
  deed.command.kind !== 'tack-test' &&
  deed.command.taskId === taskId;

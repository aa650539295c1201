import { useState } from 'preact/hooks';
import { Price } from '../price.tsx';
import { Saying } from '../saying.tsx';
import { type Problem, problemOf } from '../../api/problem.ts';
import { useYard } from '../../frame/yard.tsx';
import { Button, ProblemNotice, Row } from '../../looks/looks.tsx';
import { membershipIn } from '../../session/session.ts';
import { day } from '../../show/time.ts';
import { deciding as texts } from '../../texts/deciding.ts';
import css from '../deciding.module.css';
import type { Schema } from '../../api/client.ts';
import { accept, refuse, reprice } from './requests.ts';

type Change = Schema<'Change'>;

/** What somebody may do about a change. */
export interface Rights {
  /** The yes or no is theirs to say. */
  readonly decides: boolean;
  readonly declines: boolean;
  readonly withdraws: boolean;
}

export const isOpen = ({ state }: Change): boolean => state === 'asked' || state === 'priced';

interface Deed {
  readonly kind: 'accept' | 'decline' | 'withdraw';
  /** What was read when it was chosen: a yes is to that price, whichever comes meanwhile. */
  readonly proposalId: string;
}

/** One change: what is wanted, what it costs in days, and yes or no where it is the reader's to say. */
export function Order({
  change,
  rights,
  level,
  again,
}: {
  readonly change: Change;
  readonly rights: Rights;
  /** Of its heading. */
  readonly level: 2 | 3 | 4;
  readonly again: () => void;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  const me = membershipIn(yardId)?.memberId;
  const { words, state, note, decidedBy, decidedAt, raisedBy, createdAt } = change;
  const Heading = `h${level}` as const;
  const name = (who: Change['raisedBy']): string => (who.id === me ? texts.you : who.name);
  const isMyWord = state === 'priced' && rights.decides;
  return (
    <article class={css['order']} data-waits={isMyWord}>
      <Heading>
        {words}{' '}
        <span class={css['state']} data-state={isMyWord ? 'asked' : state}>
          {isMyWord ? texts.yours : texts.orderStates[state]}
        </span>
      </Heading>
      <p class={css['soft']}>{texts.askedBy(name(raisedBy), day(createdAt, zone))}</p>
      {isOpen(change) && <Price proposal={change.proposal} />}
      {decidedBy !== null && decidedAt !== null && (
        <p class={css['soft']}>{texts.decidedBy(name(decidedBy), day(decidedAt, zone))}</p>
      )}
      {note !== '' && <p>{texts.note(note)}</p>}
      {isOpen(change) && <Ways change={change} rights={rights} again={again} />}
    </article>
  );
}

function Ways({
  change,
  rights,
  again,
}: {
  readonly change: Change;
  readonly rights: Rights;
  readonly again: () => void;
}) {
  const { id: yardId } = useYard();
  const [deed, setDeed] = useState<Deed | null>(null);
  const [problem, setProblem] = useState<Problem>();
  const [isBusy, setBusy] = useState(false);
  const { id, words, state, proposal } = change;
  const isPriced = state === 'priced' && proposal?.state === 'priced';
  const isOutdated = proposal?.outdated === true;
  const isStuck = proposal?.state === 'unplannable' || isPriced;
  const choose = (kind: Deed['kind']): void => setDeed({ kind, proposalId: proposal?.id ?? '' });
  const done = (): void => {
    setDeed(null);
    again();
  };
  const priceAgain = (): void => {
    setBusy(true);
    setProblem(undefined);
    reprice(yardId, id)
      .then(again, (error: unknown) => setProblem(problemOf(error)))
      .finally(() => setBusy(false));
  };
  const doing = deed === null ? null : sayings[deed.kind];
  return (
    <div class={css['onScreen']}>
      <ProblemNotice problem={problem} />
      <Row>
        {rights.decides && isPriced && !isOutdated && (
          <Button kind="do" label={texts.of(texts.accept, words)} onPress={() => choose('accept')}>
            {texts.accept}
          </Button>
        )}
        {rights.declines && (
          <Button label={texts.of(texts.decline, words)} onPress={() => choose('decline')}>
            {texts.decline}
          </Button>
        )}
        {rights.withdraws && (
          <Button label={texts.of(texts.withdraw, words)} onPress={() => choose('withdraw')}>
            {texts.withdraw}
          </Button>
        )}
        {isStuck && (
          <Button
            kind={isOutdated ? 'do' : 'quiet'}
            isBusy={isBusy}
            label={texts.of(texts.reprice, words)}
            onPress={priceAgain}
          >
            {texts.reprice}
          </Button>
        )}
      </Row>
      {deed !== null && doing !== null && (
        <Saying
          title={doing.title}
          label={doing.label}
          hint={doing.hint}
          doIt={texts[deed.kind]}
          kind={deed.kind === 'accept' ? 'do' : 'harm'}
          act={(note) =>
            deed.kind === 'accept'
              ? accept(yardId, id, deed.proposalId, note)
              : refuse(yardId, id, deed.kind, note)
          }
          onDone={done}
          onClose={done}
        >
          <p>{words}</p>
        </Saying>
      )}
    </div>
  );
}

const sayings = {
  accept: { title: texts.acceptThis, label: texts.acceptNote, hint: texts.acceptHint },
  decline: { title: texts.declineThis, label: texts.declineNote, hint: undefined },
  withdraw: { title: texts.withdrawThis, label: texts.withdrawNote, hint: undefined },
} as const;

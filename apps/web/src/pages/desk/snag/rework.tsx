import { useState } from 'preact/hooks';
import { Price } from '../../../deciding/price.tsx';
import { Saying } from '../../../deciding/saying.tsx';
import { type Problem, problemOf } from '../../../api/problem.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Panel, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { desk as texts } from '../../../texts/desk.ts';
import css from '../desk.module.css';
import { accept, decide, type Note, propose, type Snag } from './requests.ts';

/** What is done about it: worked out, priced, ordered; left as it is; put right. */
export function Rework({
  snag,
  onChanged,
  again,
}: {
  readonly snag: Snag;
  readonly onChanged: (snag: Snag) => void;
  readonly again: () => void;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  const [saying, setSaying] = useState<Note | null>(null);
  /** The proposal that was read when it was to be ordered without a price: the yes is to that one. */
  const [unpriced, setUnpriced] = useState<string | null>(null);
  const [problem, setProblem] = useState<Problem>();
  const [isBusy, setBusy] = useState(false);
  const { id, state, proposal, reworks } = snag;
  const isOpen = state === 'open' || state === 'proposed';
  const waits = state === 'proposed' && proposal?.outdated === false ? proposal.state : null;
  const isPriced = waits === 'priced';
  const isUnpriced = waits === 'unplannable';
  const isToPropose = state === 'open' || (state === 'proposed' && proposal?.outdated === true);
  const send = (call: Promise<Snag>): void => {
    setBusy(true);
    setProblem(undefined);
    call
      .then(onChanged, (error: unknown) => {
        setProblem(problemOf(error));
        // A price that is stale, or a state that is another by now.
        again();
      })
      .finally(() => setBusy(false));
  };
  const proposalId = proposal?.id ?? '';
  return (
    <Panel title={texts.snag.rework}>
      <p>
        <span class={css['state']}>{texts.snag.states[state]}</span>
      </p>
      {state === 'open' && <p>{texts.snag.proposeHint}</p>}
      {state === 'proposed' && <Price proposal={proposal} />}
      {reworks.length > 0 && (
        <ul class={css['lines']}>
          {reworks.map(({ id: reworkId, words, madeAt }) => (
            <li key={reworkId}>
              {texts.snag.ordered} {dayAndClock(madeAt, zone)}: {words}
            </li>
          ))}
        </ul>
      )}
      <ProblemNotice problem={problem} />
      <Row>
        {isPriced && (
          <Button kind="do" isBusy={isBusy} onPress={() => send(accept(yardId, id, proposalId))}>
            {texts.snag.accept}
          </Button>
        )}
        {isUnpriced && (
          <Button onPress={() => setUnpriced(proposalId)}>{texts.snag.acceptUnpriced}</Button>
        )}
        {isOpen && (
          <Button
            kind={isToPropose ? 'do' : 'plain'}
            isBusy={isBusy}
            onPress={() => send(propose(yardId, id))}
          >
            {state === 'open' ? texts.snag.propose : texts.snag.proposeAgain}
          </Button>
        )}
        {isOpen && <Button onPress={() => setSaying('dismiss')}>{texts.snag.dismiss}</Button>}
        {(isOpen || state === 'accepted') && (
          <Button onPress={() => setSaying('settle')}>{texts.snag.settle}</Button>
        )}
        {(state === 'settled' || state === 'dismissed') && (
          <Button onPress={() => setSaying('reopen')}>{texts.snag.reopen}</Button>
        )}
      </Row>
      {unpriced !== null && (
        <Saying
          title={texts.snag.unpricedThis}
          label={texts.snag.unpricedWhy}
          field="override.reason"
          required
          doIt={texts.snag.acceptUnpriced}
          act={async (reason) => onChanged(await accept(yardId, id, unpriced, reason))}
          onDone={() => setUnpriced(null)}
          onClose={() => setUnpriced(null)}
        />
      )}
      {saying !== null && (
        <Saying
          {...sayings[saying]}
          doIt={texts.snag[saying]}
          act={async (note) => onChanged(await decide(yardId, id, saying, note))}
          onDone={() => setSaying(null)}
          onClose={() => setSaying(null)}
        />
      )}
    </Panel>
  );
}

const sayings = {
  dismiss: { title: texts.snag.dismissThis, label: texts.snag.dismissNote },
  settle: { title: texts.snag.settleThis, label: texts.snag.settleNote },
  reopen: { title: texts.snag.reopenThis, label: texts.snag.reopenNote },
} as const;

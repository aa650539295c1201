import { useState } from 'preact/hooks';
import { Button, Dialog, Stack } from '../../../looks/looks.tsx';
import { TextField } from '../../../form/fields.tsx';
import { now as texts } from '../../../texts/now.ts';
import { MixSheet } from '../mix/mix-sheet.tsx';
import { Stepper } from '../stepper.tsx';
import css from '../now.module.css';
import type { Acting, WorkCommand } from './acting.ts';
import type { Mine } from './mine.ts';

interface Props {
  readonly mine: Mine;
  readonly acting: Acting;
}

type Asking = 'progress' | 'abandon' | 'fail-batch';

/** What is done about a task in hand less often. */
export function More({ mine, acting }: Props) {
  const [asking, setAsking] = useState<Asking | null>(null);
  const { taskId, name, state, briefing, crew } = mine;
  const onClose = (): void => acting.askMore(null);
  const does = (command: WorkCommand) => () => {
    onClose();
    void acting.work(mine, command);
  };
  if (asking === 'progress') return <Progress mine={mine} acting={acting} />;
  if (asking !== null) return <WithReason kind={asking} mine={mine} acting={acting} />;
  const isWet = briefing?.mix !== undefined && briefing.mix !== null;
  const hasBegun = state === 'working' || state === 'paused';
  return (
    <Dialog title={name} onClose={onClose}>
      <div class={css['presses']}>
        {hasBegun && (
          <Button wide onPress={() => setAsking('progress')}>
            {texts.do.progress}
          </Button>
        )}
        {crew.length > 1 && (
          <Button wide onPress={does({ kind: 'leave', taskId })}>
            {texts.do.leave}
          </Button>
        )}
        {hasBegun && !isWet && (
          <Button wide onPress={does({ kind: 'release', taskId })}>
            {texts.do.release}
          </Button>
        )}
        <Button wide onPress={does({ kind: 'undo', taskId })}>
          {texts.do.undo}
        </Button>
        {hasBegun && isWet && (
          <Button kind="harm" wide onPress={() => setAsking('fail-batch')}>
            {texts.do['fail-batch']}
          </Button>
        )}
        {hasBegun && (
          <Button kind="harm" wide onPress={() => setAsking('abandon')}>
            {texts.do.abandon}
          </Button>
        )}
      </div>
      {briefing !== null && briefing.mix === null && (
        <MixSheet taskId={taskId} briefing={briefing} isInHand />
      )}
    </Dialog>
  );
}

const stepMinutes = 15;

function Progress({ mine, acting }: Props) {
  const begun = mine.leftMinutes ?? mine.ready?.workMinutes ?? 60;
  const [left, setLeft] = useState(Math.round(begun / stepMinutes) * stepMinutes);
  const { isBusy, report } = useReport(acting);
  return (
    <Dialog title={texts.do.progress} onClose={() => acting.askMore(null)}>
      <Stepper
        label={texts.left}
        hint={texts.leftHint}
        value={left}
        step={stepMinutes}
        min={0}
        shown={String(left)}
        less={texts.lessLeft}
        more={texts.moreLeft}
        onValue={setLeft}
      />
      <Button
        kind="do"
        wide
        isBusy={isBusy}
        onPress={() => report(mine, { kind: 'progress', taskId: mine.taskId, leftMinutes: left })}
      >
        {texts.tell.title}
      </Button>
    </Dialog>
  );
}

function WithReason({
  kind,
  mine,
  acting,
}: Props & { readonly kind: Exclude<Asking, 'progress'> }) {
  const [reason, setReason] = useState('');
  const { isBusy, report } = useReport(acting);
  return (
    <Dialog title={texts.do[kind]} onClose={() => acting.askMore(null)}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          report(mine, { kind, taskId: mine.taskId, reason: reason.trim() });
        }}
      >
        <Stack>
          <TextField
            label={texts.reason}
            hint={texts.reasonHint[kind]}
            value={reason}
            onValue={setReason}
            lines={3}
            required
            maxLength={1000}
          />
          <Button kind="harm" wide type="submit" isBusy={isBusy} disabled={reason.trim() === ''}>
            {texts.do[kind]}
          </Button>
        </Stack>
      </form>
    </Dialog>
  );
}

/** Closes what was asked when it is done or kept; refused, what was typed stays. */
function useReport(acting: Acting) {
  const [isBusy, setBusy] = useState(false);
  return {
    isBusy,
    report: (mine: Mine, command: WorkCommand): void => {
      if (isBusy) return;
      setBusy(true);
      void acting.work(mine, command).then(({ how }) => {
        setBusy(false);
        if (how === 'done' || how === 'kept') acting.askMore(null);
      });
    },
  };
}

import { useState } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { TextField } from '../../../form/fields.tsx';
import { Button, Dialog, Notice, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { hasRole } from '../../../session/session.ts';
import { now as texts } from '../../../texts/now.ts';
import type { Acting, Refusal } from './acting.ts';

/** Why something was not done. Only the foreman has work begun against the advice. */
export function RefusalDialog({
  refusal,
  acting,
}: {
  readonly refusal: Refusal;
  readonly acting: Acting;
}) {
  const { problem, held } = refusal;
  if (problem === null) {
    return (
      <Dialog title={texts.refused.held} onClose={acting.forget}>
        <Notice tone="heed" isNews>
          <p>{texts.refused.heldCure}</p>
          <ul>
            {held.map(({ message, cure }) => (
              <li key={message}>
                {message} {cure}
              </li>
            ))}
          </ul>
        </Notice>
      </Dialog>
    );
  }
  return (
    <Dialog title={texts.refused.title} onClose={acting.forget}>
      <ProblemNotice problem={problem} />
      <Override refusal={refusal} acting={acting} />
    </Dialog>
  );
}

const advised: ReadonlySet<string> = new Set(['work.unsafe-start', 'claim.not-ready']);

function Override({
  refusal: { mine, command, claimId, problem },
  acting,
}: {
  readonly refusal: Refusal;
  readonly acting: Acting;
}) {
  const yard = useYard();
  const [reason, setReason] = useState('');
  const isStart = command?.kind === 'start' && problem !== null && advised.has(problem.code);
  if (!isStart || mine === null || !hasRole(yard.id, 'foreman')) return null;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const override = { reason: reason.trim() };
        void acting.work({ ...mine, claimId }, { ...command, override }).then(({ how }) => {
          if (how === 'done' || how === 'kept') acting.forget();
        });
      }}
    >
      <Stack>
        <TextField
          label={texts.refused.overrideWhy}
          value={reason}
          onValue={setReason}
          lines={2}
          required
          maxLength={1000}
        />
        <Button kind="harm" wide type="submit" disabled={reason.trim() === ''}>
          {texts.refused.override}
        </Button>
      </Stack>
    </form>
  );
}

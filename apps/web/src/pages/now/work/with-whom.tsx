import { useState } from 'preact/hooks';
import { SeveralField } from '../../../form/fields.tsx';
import { Button, Dialog, Stack } from '../../../looks/looks.tsx';
import { now as texts } from '../../../texts/now.ts';
import type { Worker } from '../tell/around.ts';
import type { Acting, Taking } from './acting.ts';
import { Notes } from './needed.tsx';

/** Work for several is claimed for all of them: who is planned for it is chosen already. */
export function WithWhom({
  taking,
  people,
  memberId,
  acting,
}: {
  readonly taking: Taking;
  readonly people: readonly Worker[];
  readonly memberId: string;
  readonly acting: Acting;
}) {
  const { mine, isBegun } = taking;
  const { ready, name } = mine;
  const [least, most] = [ready?.crewMin ?? 1, ready?.crewMax ?? 1];
  const planned = (ready?.planned?.crew ?? []).map(({ personId }) => personId);
  const [crew, setCrew] = useState<readonly string[]>(
    planned.includes(memberId) ? planned : [memberId],
  );
  const [isBusy, setBusy] = useState(false);
  const fit = people.filter((one) => one.id === memberId || isFit(one, ready));
  const isEnough = crew.includes(memberId) && crew.length >= least && crew.length <= most;
  const submit = (event: Event): void => {
    event.preventDefault();
    if (isBusy || !isEnough) return;
    setBusy(true);
    // The holder first.
    const others = crew.filter((id) => id !== memberId);
    void acting.takeWith(taking, [memberId, ...others]).then(() => setBusy(false));
  };
  return (
    <Dialog title={name} onClose={acting.leaveIt}>
      <form onSubmit={submit}>
        <Stack>
          <p>{texts.withWhom.asks(least, most)}</p>
          <Notes of={ready} />
          <SeveralField
            label={texts.withWhom.fit}
            values={crew}
            onValues={setCrew}
            options={fit.map((one) => ({ value: one.id, label: one.name }))}
          />
          {!isEnough && <p role="status">{texts.withWhom.tooFew(least)}</p>}
          <Button kind="do" wide type="submit" isBusy={isBusy} disabled={!isEnough}>
            {isBegun ? texts.do.claimAndStart : texts.do.claim}
          </Button>
        </Stack>
      </form>
    </Dialog>
  );
}

const isFit = (
  { abilities }: Worker,
  ready: { readonly skill: string | null; readonly minLevel: number } | null,
): boolean =>
  abilities.some(({ skill, level }) => skill === ready?.skill && level >= ready.minLevel);

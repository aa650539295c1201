import { useState } from 'preact/hooks';
import { api, asked } from '../../../api/client.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Busy, Dialog, ProblemNotice } from '../../../looks/looks.tsx';
import { useKeptResource } from '../../../offline/kept-resource.ts';
import { now as texts } from '../../../texts/now.ts';
import { isHeld } from '../held.ts';
import type { Claim } from '../now-data.ts';
import css from '../now.module.css';
import type { Acting } from '../work/acting.ts';
import type { Mine } from '../work/mine.ts';

/** What others have in hand: whoever is fit for it joins them. */
export function Together({
  memberId,
  acting,
}: {
  readonly memberId: string;
  readonly acting: Acting;
}) {
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <Button wide onPress={() => setOpen(true)}>
        {texts.together}
      </Button>
      {isOpen && <Others memberId={memberId} acting={acting} onClose={() => setOpen(false)} />}
    </>
  );
}

function Others({
  memberId,
  acting,
  onClose,
}: {
  readonly memberId: string;
  readonly acting: Acting;
  readonly onClose: () => void;
}) {
  const { id: yardId } = useYard();
  const others = useKeptResource<readonly Claim[]>(
    `others ${yardId}`,
    async (signal) => {
      const path = { yardId };
      const pages = await Promise.all(
        (['working', 'open', 'paused'] as const).map((status) =>
          asked(
            api.GET('/api/v1/yards/{yardId}/claims', {
              params: { path, query: { status, first: 50 } },
              signal,
            }),
          ),
        ),
      );
      return pages.flatMap(({ items }) => items);
    },
    { yardId, on: ({ subject }) => subject === 'task' },
  );
  const list = others.data?.filter(
    (claim) => isHeld(claim) && !claim.crew.some(({ id }) => id === memberId),
  );
  const join = (claim: Claim) => () => {
    onClose();
    void acting.work(mineOf(claim), { kind: 'join', taskId: claim.taskId });
  };
  return (
    <Dialog title={texts.together} onClose={onClose}>
      {list === undefined &&
        (others.problem === undefined ? <Busy /> : <ProblemNotice problem={others.problem} />)}
      {list?.length === 0 && <p>{texts.nobody}</p>}
      <ul class={css['rows']}>
        {list?.map((claim) => (
          <li key={claim.id} class={css['other']}>
            <span>
              <strong>{claim.task}</strong>
              <br />
              {[claim.part, claim.boat].join(' · ')}
              <br />
              {texts.with(claim.crew.map(({ name }) => name))}
            </span>
            <Button label={`${texts.do.join}: ${claim.task}`} onPress={join(claim)}>
              {texts.do.join}
            </Button>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

const mineOf = ({ id, taskId, task, part, boat, crew, startedAt }: Claim): Mine => ({
  ...{ inOneGo: false, worked: { ms: 0, since: null } },
  ...{ taskId, name: task, part, boat, crew, startedAt, claimId: id },
  ...{ state: 'claimed', lapsesAt: null, leftMinutes: null, expectedAt: null },
  ...{ ready: null, briefing: null, isUnsent: false },
});

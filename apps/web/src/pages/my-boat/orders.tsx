import { useState } from 'preact/hooks';
import { Ask } from '../../deciding/changes/ask.tsx';
import { isOpen, Order, type Rights } from '../../deciding/changes/order.tsx';
import { partsOf } from '../../deciding/changes/wanted.ts';
import { useYard } from '../../frame/yard.tsx';
import { membershipIn } from '../../session/session.ts';
import { Button, Notice, Panel } from '../../looks/looks.tsx';
import { myBoat as texts } from '../../texts/my-boat.ts';
import css from './my-boat.module.css';
import type { Change, Whole } from './readings.ts';
import { type Level, titleOf } from './section.tsx';

/** Changes to the work: those that wait for a word first, and a way to ask for one. */
export function Orders({
  whole,
  level,
  again,
}: {
  readonly whole: Whole;
  readonly level: Level;
  readonly again: () => void;
}) {
  const [isAsking, setAsking] = useState(false);
  const [isAsked, setAsked] = useState(false);
  const { boat, changes, refits } = whole;
  const open = changes.filter(isOpen);
  const decided = changes.filter((change) => !isOpen(change));
  const parts = partsOf([{ name: boat.name, refits }]);
  const me = membershipIn(useYard().id)?.memberId;
  const order = (change: Change) => (
    <Order
      key={change.id}
      change={change}
      rights={rightsOf(change, me)}
      level={level === 2 ? 3 : 4}
      again={again}
    />
  );
  return (
    <Panel title={titleOf(texts.orders, boat.name, level)} level={level}>
      {isAsked && <Notice tone="well" title={texts.asked} isNews />}
      {changes.length === 0 && <p>{texts.noOrders}</p>}
      {open.map(order)}
      {parts.length > 0 ? (
        <div class={css['onScreen']}>
          <Button
            onPress={() => {
              setAsked(false);
              setAsking(true);
            }}
          >
            {texts.ask}
          </Button>
        </div>
      ) : (
        <p class={css['soft']}>{texts.noParts}</p>
      )}
      {decided.length > 0 && (
        <details class={css['details']}>
          <summary>{texts.earlierOrders(decided.length)}</summary>
          {decided.map(order)}
        </details>
      )}
      {isAsking && (
        <Ask
          parts={parts}
          onClose={() => setAsking(false)}
          onAsked={() => {
            setAsking(false);
            setAsked(true);
            again();
          }}
        />
      )}
    </Panel>
  );
}

/** Yes and no are an owner's own to say; what they asked for themselves they take back. */
const rightsOf = ({ decides, raisedBy }: Change, me: string | undefined): Rights => ({
  decides: decides === 'owner',
  declines: decides === 'owner' && raisedBy.id !== me,
  withdraws: raisedBy.id === me,
});

import { useRef } from 'preact/hooks';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, Notice, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { myBoat as texts } from '../../texts/my-boat.ts';
import { History } from './history.tsx';
import css from './my-boat.module.css';
import { Orders } from './orders.tsx';
import { Found } from './found.tsx';
import { type Whole, useMyBoats } from './readings.ts';
import { Refit } from './refit.tsx';
import { Spaces } from './spaces.tsx';
import { Week } from './week.tsx';

/** When is my boat ready, and what changed? */
export default function MyBoat() {
  const { id: yardId, timeZone: zone } = useYard();
  const { data, problem, again, asOf } = useMyBoats(yardId);
  const hasSeveral = (data?.length ?? 0) > 1;
  const single = hasSeveral ? undefined : data?.at(0)?.boat.name;
  useTitle(single ?? texts.title);
  return (
    <Stack>
      <div class={css['head']}>
        <h1>{single ?? texts.title}</h1>
        {data !== undefined && data.length > 0 && (
          <span class={css['onScreen']}>
            <Button onPress={() => print()}>{texts.print}</Button>
          </span>
        )}
      </div>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data?.length === 0 && (
        <Notice title={texts.none}>
          <p>{texts.noneCure}</p>
        </Notice>
      )}
      {hasSeveral && data !== undefined && (
        <nav class={css['onScreen']} aria-label={texts.jump}>
          <ul class={css['jump']}>
            {data.map(({ boat }) => (
              <li key={boat.id}>
                <a href={`#boat-${boat.id}`}>{boat.name}</a>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {data?.map((whole) => (
        <Boat key={whole.boat.id} whole={whole} isOneOfSeveral={hasSeveral} again={again} />
      ))}
      {asOf !== undefined && <p class={css['soft']}>{texts.asOf(dayAndClock(asOf, zone))}</p>}
    </Stack>
  );
}

function Boat({
  whole,
  isOneOfSeveral,
  again,
}: {
  readonly whole: Whole;
  readonly isOneOfSeveral: boolean;
  readonly again: () => void;
}) {
  const { boat, changes } = whole;
  // Those of one boat stand right below the title of the page.
  const level = isOneOfSeveral ? 3 : 2;
  // A question comes before the news; but while somebody is at a dialog nothing moves, or it would close.
  const isFirst = useRef(false);
  if (document.querySelector('dialog') === null) isFirst.current = waitsForMe(changes);
  const isAsked = isFirst.current;
  const orders = <Orders whole={whole} level={level} again={again} />;
  return (
    <section
      id={`boat-${boat.id}`}
      class={css['boat']}
      aria-label={isOneOfSeveral ? boat.name : undefined}
      tabIndex={-1}
    >
      {isOneOfSeveral && <h2 class={css['name']}>{boat.name}</h2>}
      {boat.refits.length === 0 && <p>{texts.noRefit}</p>}
      {boat.refits.map((refit) => (
        <Refit
          key={refit.id}
          refit={refit}
          boat={boat.name}
          hasName={boat.refits.length > 1}
          level={level}
        />
      ))}
      {isAsked && orders}
      <div class={css['columns']}>
        <Week boat={boat} level={level} />
        <History boat={boat} level={level} />
      </div>
      {!isAsked && orders}
      <Found whole={whole} level={level} />
      <Spaces boat={boat} level={level} />
    </section>
  );
}

const waitsForMe = (changes: Whole['changes']): boolean =>
  changes.some(({ state, decides }) => state === 'priced' && decides === 'owner');

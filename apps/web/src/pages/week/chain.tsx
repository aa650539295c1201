import { useEffect, useState } from 'preact/hooks';
import { ChoiceField } from '../../form/fields.tsx';
import { Notice, Panel } from '../../looks/looks.tsx';
import { week as texts } from '../../texts/week.ts';
import { litSteps, pointedStep, toldBoat } from './lit.ts';
import type { Boat } from './model.ts';
import css from './week.module.css';

interface ChainProps {
  readonly boats: readonly Boat[];
  /** Shows the days in which a step ends. */
  readonly onGo: (moment: string, taskId: string) => void;
  /** What was gone to is not there. */
  readonly isStray: boolean;
}

/** Why a boat takes as long as it does, as numbered sentences that light what they speak of. */
export function Chain({ boats, onGo, isStray }: ChainProps) {
  const [refitId, setRefitId] = useState<string>();
  const told = boats.find((boat) => boat.refitId === refitId) ?? mostPressing(boats);
  useEffect(() => {
    toldBoat.value = told ?? null;
  }, [told]);
  if (told === undefined) return null;
  return (
    <Panel title={texts.chain}>
      <ChoiceField
        label={texts.chainOf}
        value={told.refitId}
        onValue={setRefitId}
        options={boats.map((boat) => ({
          value: boat.refitId,
          label: texts.of(boat.boat, boat.refit),
        }))}
      />
      {told.chain.length === 0 ? (
        <p>{texts.chainEmpty}</p>
      ) : (
        <>
          <p class={css['hint']}>{texts.chainHelp}</p>
          {isStray && <Notice tone="heed" title={texts.stray} isNews />}
          <Sentences boat={told} onGo={onGo} />
        </>
      )}
    </Panel>
  );
}

/** The one that is latest; of boats in time the one that is finished last. */
function mostPressing(boats: readonly Boat[]): Boat | undefined {
  return [...boats].sort(
    (a, b) => b.lateMinutes - a.lateMinutes || Date.parse(b.finish) - Date.parse(a.finish),
  )[0];
}

function Sentences({ boat, onGo }: { readonly boat: Boat; readonly onGo: ChainProps['onGo'] }) {
  const lit = litSteps.value;
  const { refitId } = boat;
  const leave = (): void => {
    pointedStep.value = null;
  };
  return (
    <ol class={css['chain']}>
      {boat.chain.map((one, step) => {
        const point = (): void => {
          pointedStep.value = { refitId, step };
        };
        return (
          <li key={step} data-lit={lit.has(step)}>
            <button
              type="button"
              class={css['sentence']}
              onFocus={point}
              onBlur={leave}
              onPointerEnter={point}
              onPointerLeave={leave}
              onClick={() => onGo(one.until, one.toTask)}
            >
              {one.text}
            </button>
          </li>
        );
      })}
    </ol>
  );
}

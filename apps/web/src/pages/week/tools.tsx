import { Button } from '../../looks/looks.tsx';
import { week as texts } from '../../texts/week.ts';
import type { Shown } from './address.ts';
import { type Closeness, closeness } from './closeness.ts';
import { views } from './lanes.ts';
import css from './week.module.css';

interface ToolsProps {
  readonly shown: Shown;
  readonly show: (change: Partial<Shown>) => void;
  /** How near the days are drawn. */
  readonly closer: Closeness;
  readonly isStacked: boolean;
  readonly onTurn: (step: 1 | -1) => void;
  readonly onNow: () => void;
}

/** Which days, by what, and how near. */
export function Tools({ shown, show, closer, isStacked, onTurn, onNow }: ToolsProps) {
  const { by, asTable } = shown;
  const at = closeness.findIndex((one) => one === closer);
  const isByDay = isStacked && !asTable;
  const goCloser = (step: 1 | -1): void => {
    show({ closer: closeness[at + step] ?? closer });
  };
  return (
    <div class={css['tools']}>
      <div role="group" aria-label={texts.by}>
        {views.map((view) => (
          <Button key={view} pressed={view === by} onPress={() => show({ by: view })}>
            {texts.view[view]}
          </Button>
        ))}
      </div>
      <div role="group" aria-label={texts.days}>
        <Button onPress={() => onTurn(-1)}>{isByDay ? texts.dayBefore : texts.earlier}</Button>
        <Button
          onPress={() => {
            onNow();
            show({ from: null });
          }}
        >
          {isByDay ? texts.today : texts.now}
        </Button>
        <Button onPress={() => onTurn(1)}>{isByDay ? texts.dayAfter : texts.later}</Button>
      </div>
      <div role="group" aria-label={texts.nearness}>
        {!asTable && (
          <>
            <Button disabled={at === 0} onPress={() => goCloser(-1)}>
              {texts.farther}
            </Button>
            <Button disabled={at === closeness.length - 1} onPress={() => goCloser(1)}>
              {texts.closer}
            </Button>
          </>
        )}
        <Button onPress={() => show({ asTable: !asTable })}>
          {asTable ? texts.asPicture : texts.asTable}
        </Button>
      </div>
    </div>
  );
}

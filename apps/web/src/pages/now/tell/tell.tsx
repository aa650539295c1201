import { useState } from 'preact/hooks';
import { Button } from '../../../looks/looks.tsx';
import { isReachable } from '../../../offline/reachable.ts';
import { now as texts } from '../../../texts/now.ts';
import css from '../now.module.css';
import own from './tell.module.css';
import type { Acting } from '../work/acting.ts';
import type { Mine, Standing } from '../work/mine.ts';
import { useFilms, withEnded } from './films.ts';
import { Snag } from './snag.tsx';
import { type Around, partOfTask } from './around.ts';
import { TackTest } from './tack-test.tsx';
import { Temperature } from './temperature.tsx';
import { useWarmth } from './warmth.ts';

type What = 'tack' | 'temperature' | 'snag';

/** What a builder tells beside the work: a film, a thermometer, a defect. */
export function Tell({
  yardId,
  planId,
  around,
  standing,
  acting,
}: {
  readonly yardId: string;
  readonly around: Around | undefined;
  readonly planId: string | null | undefined;
  readonly standing: Standing;
  readonly acting: Acting;
}) {
  const [what, setWhat] = useState<What | null>(null);
  const [isTold, setTold] = useState(false);
  const films = useFilms(yardId, planId);
  const close = (told: boolean): void => {
    setWhat(null);
    setTold(told);
  };
  const open = (one: What) => () => {
    setTold(false);
    setWhat(one);
  };
  const { parts = [], kinds = [], spaces = [] } = around ?? {};
  const here = standing.inHand.at(0) ?? standing.ended.at(-1)?.mine ?? standing.ready.at(0);
  // Read ahead, for when it is told out of reach.
  useWarmth(yardId, spaceOf(here) ?? spaces.at(0)?.id, 'air');
  return (
    <section class={own['tell']} aria-label={texts.tell.title}>
      <div class={own['three']}>
        <Button wide onPress={open('tack')}>
          {texts.tell.tack}
        </Button>
        <Button wide disabled={spaces.length === 0} onPress={open('temperature')}>
          {texts.tell.temperature}
        </Button>
        <Button wide disabled={parts.length === 0 || kinds.length === 0} onPress={open('snag')}>
          {texts.tell.snag}
        </Button>
      </div>
      <p role="status" class={css['soft']}>
        {isTold && (isReachable.value ? texts.tell.thanks : texts.tell.kept)}
      </p>
      {what === 'tack' && (
        <TackTest
          films={withEnded(films.data?.films ?? [], standing.ended)}
          acting={acting}
          onClose={close}
        />
      )}
      {what === 'temperature' && (
        <Temperature
          yardId={yardId}
          spaces={spaces}
          spaceId={spaceOf(here)}
          acting={acting}
          onClose={close}
        />
      )}
      {what === 'snag' && (
        <Snag
          parts={parts}
          partId={here === undefined ? null : (partOfTask(parts, here.taskId)?.id ?? null)}
          kinds={kinds}
          yardId={yardId}
          onClose={close}
        />
      )}
    </section>
  );
}

const spaceOf = (mine: Mine | undefined): string | null =>
  mine?.ready?.spaceId ?? mine?.briefing?.spaceId ?? null;

import type { Schema } from '../../../api/client.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { clock } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import css from '../now.module.css';
import type { Calm } from '../work/calm.ts';
import own from './mix.module.css';
import { Countdown } from './countdowns.tsx';
import { changeCup, type Cup, cupOf } from './mixing.ts';
import { measured, weighed } from './weigh.ts';

type Sheet = Schema<'MixSheet'>;

/** One cup: what goes in, whether it is weighed, and from its mixing on how long it lasts. */
export function CupRow({
  taskId,
  mix,
  cup: { number, resinGrams, hardenerGrams, hardenerMl },
  isInHand,
  calm,
}: {
  readonly taskId: string;
  readonly mix: Sheet;
  readonly cup: Sheet['cups'][number];
  readonly isInHand: boolean;
  /** Of the whole sheet: a cup that is mixed moves those below it. */
  readonly calm: Calm;
}) {
  const { timeZone } = useYard();
  const mine = units.value;
  const cup = cupOf(taskId, number);
  const press = (change: () => Partial<Cup>) => ({
    isBusy: !calm.isCalm,
    onPress: () => calm.once(() => changeCup(taskId, number, change())),
  });
  const mixed = (): Partial<Cup> => ({
    isWeighed: true,
    mixedAt: new Date().toISOString(),
    spreadAt: null,
    useWithin: mix.useWithinMinutes,
    potLife: mix.potLifeMinutes,
  });
  return (
    <li class={own['cup']}>
      <h4 class={css['name']}>{texts.mix.cup(number, mix.cups.length)}</h4>
      <dl class={own['amounts']}>
        <dt>{texts.mix.resin}</dt>
        <dd>{weighed(resinGrams, mine)}</dd>
        <dt>{texts.mix.hardener}</dt>
        <dd>
          {weighed(hardenerGrams, mine)}
          {hardenerMl !== null && ` · ${measured(hardenerMl, mine)}`}
        </dd>
      </dl>
      {isInHand && (
        <>
          {cup.mixedAt !== null && (
            <p>
              {texts.mix.isMixed(clock(cup.mixedAt, timeZone))}
              {cup.spreadAt !== null && ` · ${texts.mix.isSpread}`}
            </p>
          )}
          {cup.spreadAt === null && <Countdown cup={cup} />}
          <div class={css['presses']}>
            {cup.mixedAt === null ? (
              <>
                <Button
                  wide
                  pressed={cup.isWeighed}
                  {...press(() => ({ isWeighed: !cup.isWeighed }))}
                >
                  <span class={own['tick']} aria-hidden="true" data-on={cup.isWeighed} />
                  {texts.mix.weighed}
                </Button>
                <Button kind="do" wide {...press(mixed)}>
                  {texts.mix.mixed}
                </Button>
              </>
            ) : cup.spreadAt === null ? (
              <>
                <Button kind="do" wide {...press(() => ({ spreadAt: new Date().toISOString() }))}>
                  {texts.mix.spread}
                </Button>
                <Button wide {...press(() => ({ mixedAt: null }))}>
                  {texts.mix.notMixed}
                </Button>
              </>
            ) : (
              <Button wide {...press(() => ({ spreadAt: null }))}>
                {texts.mix.notSpread}
              </Button>
            )}
          </div>
        </>
      )}
    </li>
  );
}

import type { Schema } from '../../../api/client.ts';
import { Notice } from '../../../looks/looks.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { units } from '../../../session/session.ts';
import { span } from '../../../show/time.ts';
import { number, quantity } from '../../../show/units.ts';
import { now as texts } from '../../../texts/now.ts';
import { moment, useTick } from '../moments.ts';
import type { Briefing } from '../now-data.ts';
import { useCalm } from '../work/calm.ts';
import css from '../now.module.css';
import { useBasis } from './basis.ts';
import own from './mix.module.css';
import { closingFor } from './closing.ts';
import { CupRow } from './cup-row.tsx';
import { cupOf } from './mixing.ts';
import { measured, weighed } from './weigh.ts';

/** What to weigh, cup by cup; onto what it goes; what to take along. */
export function MixSheet({
  taskId,
  briefing,
  isInHand,
}: {
  readonly taskId: string;
  readonly briefing: Briefing;
  /** Then cups can be mixed. */
  readonly isInHand: boolean;
}) {
  const { mix, bond, consumables } = briefing;
  const cups = (mix?.cups ?? []).map((one) => cupOf(taskId, one.number));
  const calm = useCalm(
    cups.map(({ mixedAt, spreadAt }) => `${mixedAt ?? ''} ${spreadAt ?? ''}`).join('\n'),
  );
  return (
    <div class={own['sheet']}>
      {bond !== null && <Bond bond={bond} />}
      {mix === null ? (
        <p class={css['soft']}>{texts.mix.none}</p>
      ) : (
        <>
          <Head mix={mix} briefing={briefing} />
          {isInHand && <Closing briefing={briefing} />}
          {mix.missing.length > 0 && (
            <Notice tone="heed" title={texts.mix.missing}>
              <Lines lines={mix.missing} />
            </Notice>
          )}
          {mix.cups.length > 0 && (
            <ol class={own['cupList']}>
              {mix.cups.map((cup) => (
                <CupRow key={cup.number} {...{ taskId, mix, cup, isInHand, calm }} />
              ))}
            </ol>
          )}
          <Whole mix={mix} />
          {mix.fabrics.length > 0 && (
            <section>
              <h3>{texts.mix.fabrics}</h3>
              <ul class={css['plain']}>
                {mix.fabrics.map(({ id, name, squareMetres, grams }) => (
                  <li key={id}>
                    {name}: {quantity('area', squareMetres, units.value)},{' '}
                    {weighed(grams, units.value)}
                  </li>
                ))}
              </ul>
            </section>
          )}
          {mix.steps.length > 0 && (
            <details>
              <summary class={own['summary']}>{texts.mix.working}</summary>
              <Lines lines={mix.steps} />
            </details>
          )}
          <p class={css['soft']}>{texts.mix.defers}</p>
        </>
      )}
      {consumables.length > 0 && (
        <section>
          <h3>{texts.mix.consumables}</h3>
          <ul class={css['plain']}>
            {consumables.map(({ id, name, amount, unit }) => (
              <li key={id}>
                {name}: {number(amount)} {unit}
              </li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

/** When the window of this work shuts, and whether what is mixed now would come too late for it, as far as is known. */
function Closing({ briefing }: { readonly briefing: Briefing }) {
  const { timeZone } = useYard();
  const now = useTick(15_000);
  const basis = useBasis(briefing);
  const { closes } = briefing;
  if (closes === null) return null;
  const when = moment(closes.at, timeZone, now);
  const stage = closingFor(briefing, now);
  if (stage === null)
    return <p>{basis === null ? texts.window.until(when) : texts.window.untilBy(basis, when)}</p>;
  if (basis !== null)
    return (
      <Notice tone="heed" title={texts.mix.closingBy[stage](basis, when)} isNews>
        <p>{texts.mix.closingByCure[stage]}</p>
      </Notice>
    );
  return (
    <Notice tone={stage === 'shut' ? 'harm' : 'heed'} title={texts.mix.closing[stage](when)} isNews>
      <p>{texts.mix.closingCure[stage]}</p>
    </Notice>
  );
}

const Lines = ({ lines }: { readonly lines: readonly string[] }) => (
  <ul class={css['plain']}>
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);

function Head({
  mix,
  briefing,
}: {
  readonly mix: Schema<'MixSheet'>;
  readonly briefing: Briefing;
}) {
  const basis = useBasis(briefing);
  const { material, ratio, celsius, potLifeMinutes, useWithinMinutes } = mix;
  const told = [texts.mix.resinAt(quantity('temperature', celsius, units.value))];
  if (ratio !== null) told.unshift(texts.mix.ratio(ratio));
  if (useWithinMinutes !== null) told.push(texts.mix.useWithin(span(useWithinMinutes)));
  if (potLifeMinutes !== null) told.push(texts.mix.potLife(span(potLifeMinutes)));
  return (
    <div>
      <h3>{texts.mix.material(material)}</h3>
      <p>{told.join(' · ')}</p>
      {basis !== null && <p class={css['soft']}>{texts.mix.reckonedBy(basis)}</p>}
    </div>
  );
}

function Whole({
  mix: { resinGrams, hardenerGrams, hardenerMl },
}: {
  readonly mix: Schema<'MixSheet'>;
}) {
  const mine = units.value;
  if (resinGrams === null) return null;
  return (
    <section>
      <h3>{texts.mix.whole}</h3>
      <dl class={own['amounts']}>
        <dt>{texts.mix.resin}</dt>
        <dd>{weighed(resinGrams, mine)}</dd>
        {hardenerGrams !== null && (
          <>
            <dt>{texts.mix.hardener}</dt>
            <dd>
              {weighed(hardenerGrams, mine)}
              {hardenerMl !== null && ` · ${measured(hardenerMl, mine)}`}
            </dd>
          </>
        )}
      </dl>
    </section>
  );
}

const Bond = ({ bond }: { readonly bond: Schema<'PlanBond'> }) => (
  <section>
    <h3>{texts.bond.title}</h3>
    <p>
      {bond.surface}: <strong>{texts.bond[bond.bond]}</strong>. {bond.reason}{' '}
      <small class={css['soft']}>{texts.source(bond.source)}</small>
    </p>
    {bond.preparation.length > 0 && (
      <>
        <p>{texts.bond.preparation}</p>
        <ol>
          {bond.preparation.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </>
    )}
  </section>
);

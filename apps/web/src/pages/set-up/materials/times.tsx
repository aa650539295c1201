import { useState } from 'preact/hooks';
import { Button, Notice, Panel, Row } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { span } from '../../../show/time.ts';
import { number, quantity } from '../../../show/units.ts';
import { common } from '../../../texts/common.ts';
import { materials as texts } from '../../../texts/materials.ts';
import { Asking } from '../record/removing.tsx';
import { Evidence, timeSpread } from './evidence.tsx';
import type { Material } from './material-collection.ts';
import css from './materials.module.css';
import type { Change, Law, Milestone, Sheet } from './sheet.ts';
import { TimesDialog } from './times-dialog.tsx';

const ofAll = Object.keys(texts.milestones) as Milestone[];

/** Every milestone: its times by temperature, whose they are, and the lines that are still missing. */
export function Times({
  material,
  sheet,
  change,
}: {
  readonly material: Material;
  readonly sheet: Sheet;
  readonly change: Change;
}) {
  const [entering, setEntering] = useState<Milestone>();
  const [taking, setTaking] = useState<Milestone>();
  const isOwn = (milestone: Milestone): boolean =>
    material.milestones.some((one) => one.milestone === milestone);
  return (
    <Panel title={texts.times}>
      {sheet.missing.length > 0 && (
        <Notice tone="heed" title={texts.missing}>
          <p>{texts.missingLead}</p>
          <ul>
            {sheet.missing.map(({ milestone, line }) => (
              <li key={milestone}>{texts.missingLine(texts.milestones[milestone], line)}</li>
            ))}
          </ul>
        </Notice>
      )}
      <p class={css['soft']}>{texts.timesLead}</p>
      <ul class={css['lines']}>
        {ofAll.map((milestone) => {
          const law = sheet.times.find((one) => one.milestone === milestone);
          const name = texts.milestones[milestone];
          const own = isOwn(milestone);
          return (
            <li key={milestone} class={css['line']}>
              <strong>{name}</strong>
              <div>
                {law === undefined ? (
                  <span class={css['soft']}>{texts.unknown}</span>
                ) : (
                  <LawWords law={law} />
                )}
              </div>
              {law === undefined ? (
                <span />
              ) : (
                <Evidence {...law} isOwn={own} hasClass={material.classId !== null} />
              )}
              <div>
                <Row>
                  <Button
                    label={own ? texts.changeOf(name) : texts.enter(name)}
                    onPress={() => setEntering(milestone)}
                  >
                    {own ? common.edit : texts.enterShort}
                  </Button>
                  {own && (
                    <Button label={texts.takeBackOf(name)} onPress={() => setTaking(milestone)}>
                      {texts.takeBack}
                    </Button>
                  )}
                </Row>
              </div>
            </li>
          );
        })}
      </ul>
      {entering !== undefined && (
        <TimesDialog
          key={entering}
          milestone={entering}
          material={material}
          law={sheet.times.find((one) => one.milestone === entering)}
          change={change}
          onClose={() => setEntering(undefined)}
        />
      )}
      {taking !== undefined && (
        <Asking
          title={texts.takingBack(texts.milestones[taking])}
          warning={texts.takingBackWarning}
          doIt={texts.takeBack}
          act={() =>
            change.patch(material, {
              milestones: material.milestones.filter(({ milestone }) => milestone !== taking),
            })
          }
          onDone={() => setTaking(undefined)}
          onClose={() => setTaking(undefined)}
        />
      )}
    </Panel>
  );
}

function lawWords({ kind, kjPerMol, per10C }: Law): string | null {
  switch (kind) {
    case 'table':
      return null;
    case 'activation':
      return texts.law.activation(number(kjPerMol ?? 0));
    case 'doubling':
      return texts.law.doubling(number(per10C ?? 0));
    case 'conversion':
      return texts.law.conversion;
  }
}

function LawWords({ law }: { readonly law: Law }) {
  const words = lawWords(law);
  return (
    <div class={css['value']}>
      <ul class={css['rows']}>
        {law.rows.map(({ celsius, minutes }) => (
          <li key={celsius}>
            <strong>{span(minutes)}</strong>{' '}
            <span class={css['soft']}>
              {texts.at(quantity('temperature', celsius, units.value))}
            </span>
          </li>
        ))}
      </ul>
      {words !== null && <span class={css['soft']}>{words}</span>}
      <span class={css['soft']}>
        {timeSpread(law.spread)}
        {law.factor !== 1 && `; ${texts.yourFactor(number(law.factor))}`}
      </span>
      {law.touchTest !== null && (
        <span class={css['soft']}>{texts.byHand(law.touchTest.words)}</span>
      )}
    </div>
  );
}

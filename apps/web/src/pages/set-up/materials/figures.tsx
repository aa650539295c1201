import { useState } from 'preact/hooks';
import { Button, Panel, Row } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { number, quantity } from '../../../show/units.ts';
import { common } from '../../../texts/common.ts';
import { materials as texts } from '../../../texts/materials.ts';
import { Asking } from '../record/removing.tsx';
import { Evidence, lineSpread } from './evidence.tsx';
import { type Field, fields, isDegrees, isLimit, patchOf } from './figure-fields.ts';
import { FigureDialog } from './figure-dialog.tsx';
import type { Material } from './material-collection.ts';
import type { Change, Sheet } from './sheet.ts';
import css from './materials.module.css';

/** A number in its unit, temperatures as whoever looks reads them. */
function valueOf(field: Field, value: number): string {
  if (isLimit(field)) return quantity('temperature', value, units.value);
  if (isDegrees(field)) return quantity('degrees', value, units.value);
  const all: Partial<Record<Field, string>> = texts.fieldUnits;
  return `${number(value)} ${all[field] ?? ''}`.trim();
}

/** Every number of the sheet but for times and hardener, what is not known among them. */
export function Figures({
  material,
  sheet,
  change,
}: {
  readonly material: Material;
  readonly sheet: Sheet;
  readonly change: Change;
}) {
  const [changing, setChanging] = useState<Field>();
  const [taking, setTaking] = useState<Field>();
  return (
    <Panel title={texts.sheet}>
      <ul class={css['lines']}>
        {fields.map((field) => {
          const line = sheet.lines.find((one) => one.field === field);
          const name = texts.fields[field];
          const isOwn = material[field] !== null;
          return (
            <li key={field} class={css['line']}>
              <strong>{name}</strong>
              <div>
                {line === undefined ? (
                  <span class={css['soft']}>{texts.unknown}</span>
                ) : (
                  <span class={css['value']}>
                    <strong>{valueOf(field, line.value)}</strong>
                    <span class={css['soft']}>{lineSpread(line)}</span>
                  </span>
                )}
              </div>
              {line === undefined ? (
                <span />
              ) : (
                <Evidence {...line} isOwn={isOwn} hasClass={material.classId !== null} />
              )}
              <div>
                <Row>
                  <Button
                    label={isOwn ? texts.changeOf(name) : texts.enter(name)}
                    onPress={() => setChanging(field)}
                  >
                    {isOwn ? common.edit : texts.enterShort}
                  </Button>
                  {isOwn && (
                    <Button label={texts.takeBackOf(name)} onPress={() => setTaking(field)}>
                      {texts.takeBack}
                    </Button>
                  )}
                </Row>
              </div>
            </li>
          );
        })}
      </ul>
      {changing !== undefined && (
        <FigureDialog
          key={changing}
          field={changing}
          material={material}
          line={sheet.lines.find((one) => one.field === changing)}
          change={change}
          onClose={() => setChanging(undefined)}
        />
      )}
      {taking !== undefined && (
        <Asking
          title={texts.takingBack(texts.fields[taking])}
          warning={texts.takingBackWarning}
          doIt={texts.takeBack}
          act={() => change.patch(material, patchOf(taking, null))}
          onDone={() => setTaking(undefined)}
          onClose={() => setTaking(undefined)}
        />
      )}
    </Panel>
  );
}

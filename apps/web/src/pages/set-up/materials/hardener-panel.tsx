import { useState } from 'preact/hooks';
import { Button, Notice, Panel, Row } from '../../../looks/looks.tsx';
import { number } from '../../../show/units.ts';
import { common } from '../../../texts/common.ts';
import { materials as texts } from '../../../texts/materials.ts';
import { Asking } from '../record/removing.tsx';
import { Evidence } from './evidence.tsx';
import { HardenerDialog } from './hardener-dialog.tsx';
import type { Material } from './material-collection.ts';
import type { Change, Sheet } from './sheet.ts';
import css from './materials.module.css';

const of = texts.hardener;

function wordsOf({ kind, used, warn, block }: NonNullable<Sheet['hardener']>): string[] {
  if (kind === 'ratio') return [of.ratio(number(used))];
  return [
    of.percent(number(used)),
    ...(warn === null ? [] : [of.warned(number(warn.low), number(warn.high))]),
    ...(block === null ? [] : [of.refused(number(block.low), number(block.high))]),
  ];
}

/** How the second part is measured: what every mix is weighed by. */
export function HardenerPanel({
  material,
  sheet,
  change,
}: {
  readonly material: Material;
  readonly sheet: Sheet;
  readonly change: Change;
}) {
  const [isChanging, setChanging] = useState(false);
  const [isTaking, setTaking] = useState(false);
  const lines = sheet.lines.filter(({ field }) => field.startsWith('hardener.'));
  return (
    <Panel title={of.title}>
      {sheet.hardener === null ? (
        <Notice tone="heed">{of.none}</Notice>
      ) : (
        <ul>
          {wordsOf(sheet.hardener).map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
      {lines.map((line) => (
        <div key={line.field} class={css['value']}>
          <span>{texts.hardenerLine(texts.fields[line.field], number(line.value))}</span>
          <Evidence
            {...line}
            isOwn={line.overridden || material.classId === null}
            hasClass={material.classId !== null}
          />
        </div>
      ))}
      <Row>
        <Button onPress={() => setChanging(true)}>
          {material.hardener === null ? of.change : common.edit}
        </Button>
        {material.hardener !== null && (
          <Button label={texts.takeBackOf(of.title)} onPress={() => setTaking(true)}>
            {texts.takeBack}
          </Button>
        )}
      </Row>
      {isChanging && (
        <HardenerDialog
          material={material}
          sheet={sheet}
          change={change}
          onClose={() => setChanging(false)}
        />
      )}
      {isTaking && (
        <Asking
          title={texts.takingBack(of.title)}
          warning={texts.takingBackWarning}
          doIt={texts.takeBack}
          act={() => change.patch(material, { hardener: null })}
          onDone={() => setTaking(false)}
          onClose={() => setTaking(false)}
        />
      )}
    </Panel>
  );
}

import type { Schema } from '../../../api/client.ts';
import { useForm } from '../../../form/form.ts';
import { Notice } from '../../../looks/looks.tsx';
import { materials as texts } from '../../../texts/materials.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { useBeginning } from '../record/beginning.ts';
import { Needed, NeededQuantity } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import { meanwhile } from './changed-in.ts';
import { EvidenceFields, type EvidenceValues } from './evidence.tsx';
import type { Material } from './material-collection.ts';
import type { Change, Milestone } from './sheet.ts';

type Values = EvidenceValues & { readonly rows: readonly Schema<'CureRow'>[] };

const blankRow = (celsius: number): Schema<'CureRow'> => ({ celsius, minutes: Number.NaN });

function begin(
  milestone: Milestone,
  { milestones }: Material,
  law: Schema<'MilestoneTimes'> | undefined,
): Values {
  const own = milestones.find((one) => one.milestone === milestone);
  if (own !== undefined) {
    const { rows, source, trust, spread } = own;
    return { rows: rows.length > 0 ? rows : [blankRow(20)], source, trust, spread };
  }
  const rows = law === undefined || law.rows.length === 0 ? [blankRow(20)] : law.rows;
  return { rows, source: '', trust: 'sheet', spread: null };
}

/** The yard's own times of a milestone. */
export function TimesDialog({
  milestone,
  material,
  law,
  change,
  onClose,
}: {
  readonly milestone: Milestone;
  readonly material: Material;
  readonly law: Schema<'MilestoneTimes'> | undefined;
  readonly change: Change;
  readonly onClose: () => void;
}) {
  const { from, theirs, send } = useBeginning(material, change);
  const before = from.milestones.findIndex((one) => one.milestone === milestone);
  const at = before < 0 ? from.milestones.length : before;
  const form = useForm<Values>(begin(milestone, material, law), async (values) => {
    const rows = values.rows.toSorted((a, b) => a.celsius - b.celsius);
    const line = { ...values, milestone, rows, conversion: null };
    await send({ milestones: from.milestones.toSpliced(at, 1, line) });
    onClose();
  });
  const { values, set, faultAt } = form;
  const here = `milestones[${String(at)}]`;
  const hasModel = before >= 0 && from.milestones[before].conversion !== null;
  return (
    <FormDialog
      title={texts.enter(texts.milestones[milestone])}
      form={form}
      meanwhile={meanwhile(theirs)}
      onClose={onClose}
    >
      {hasModel && <Notice tone="heed">{texts.ownModel}</Notice>}
      <Rows
        legend={texts.rows}
        hint={texts.timesLead}
        what={texts.row}
        addLabel={texts.addRow}
        rows={values.rows}
        onRows={(rows) => set('rows', rows)}
        blank={() => blankRow(Number.NaN)}
        least={1}
        fault={faultAt(`${here}.rows`)}
      >
        {(row, put, k) => (
          <>
            <NeededQuantity
              kind="temperature"
              label={texts.temperature}
              value={row.celsius}
              onValue={(celsius) => put({ celsius })}
              fault={faultAt(`${here}.rows[${String(k)}].celsius`)}
            />
            <Needed
              label={texts.minutes}
              unit={texts.minutesUnit}
              min={0}
              value={row.minutes}
              onValue={(minutes) => put({ minutes })}
              fault={faultAt(`${here}.rows[${String(k)}].minutes`)}
            />
          </>
        )}
      </Rows>
      <EvidenceFields
        values={values}
        set={(some) => {
          if (some.source !== undefined) set('source', some.source);
          if (some.trust !== undefined) set('trust', some.trust);
          if (some.spread !== undefined) set('spread', some.spread);
        }}
        faultAt={(part) => faultAt(`${here}.${part}`)}
        spreadIs="factor"
      />
    </FormDialog>
  );
}

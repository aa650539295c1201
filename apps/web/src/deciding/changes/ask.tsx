import { ChoiceField, QuantityField, TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { useYard } from '../../frame/yard.tsx';
import { Button, Dialog, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { common } from '../../texts/common.ts';
import { deciding as texts } from '../../texts/deciding.ts';
import { ask } from './requests.ts';
import { changeOf, type Placed, type Wanted } from './wanted.ts';

const kinds = Object.keys(texts.changeKinds) as Wanted['kind'][];

/** Asks for a change of one of the boat's parts; it is priced before anybody says yes. */
export function Ask({
  parts,
  onClose,
  onAsked,
}: {
  /** One at least. */
  readonly parts: readonly Placed[];
  readonly onClose: () => void;
  readonly onAsked: () => void;
}) {
  const { id: yardId } = useYard();
  const placedAt = (id: string): Placed => parts.find(({ part }) => part.id === id) ?? parts[0];
  const form = useForm<Wanted>(
    { kind: 'size', name: '', words: '', ...measuresOf(parts[0]) },
    async (values, headers) => {
      const placed = placedAt(values.partId);
      await ask(yardId, changeOf(sent(values, placed), placed), values.words.trim(), headers);
      onAsked();
    },
  );
  const { kind } = form.values;
  const isNew = kind === 'add-part';
  const choose = (id: string): void => {
    const measures = measuresOf(placedAt(id));
    form.set('partId', measures.partId);
    form.set('areaM2', measures.areaM2);
    form.set('edgeM', measures.edgeM);
    form.set('jointM', measures.jointM);
  };
  const faultOf = (key: string): string | undefined =>
    form.faultAt(`change.${isNew ? 'part.' : ''}${key}`);
  return (
    <Dialog title={texts.ask} onClose={onClose}>
      <form onSubmit={form.submit}>
        <Stack>
          <p>{texts.askHint}</p>
          <ChoiceField
            label={texts.kind}
            value={kind}
            onValue={(value) => form.set('kind', kinds.find((one) => one === value) ?? 'size')}
            options={kinds.map((value) => ({ value, label: texts.changeKinds[value] }))}
          />
          <ChoiceField
            label={isNew ? texts.like : texts.part}
            hint={isNew ? texts.likeHint : undefined}
            value={form.values.partId}
            onValue={choose}
            fault={form.faultAt('change.partId')}
            options={parts.map(({ part, label }) => ({ value: part.id, label }))}
          />
          {isNew && (
            <TextField
              label={texts.newName}
              {...form.at('name')}
              fault={faultOf('name')}
              required
              maxLength={200}
            />
          )}
          {kind !== 'drop-part' && (
            <>
              <QuantityField
                kind="area"
                label={texts.area}
                {...form.at('areaM2')}
                fault={faultOf('areaM2')}
              />
              <QuantityField
                kind="length"
                label={texts.edge}
                {...form.at('edgeM')}
                fault={faultOf('edgeM')}
              />
              <QuantityField
                kind="length"
                label={texts.joint}
                {...form.at('jointM')}
                fault={faultOf('jointM')}
              />
            </>
          )}
          <TextField
            label={texts.words}
            hint={texts.wordsHint}
            {...form.at('words')}
            fault={form.faultAt('words')}
            lines={3}
            maxLength={1000}
            isOptional
          />
          <ProblemNotice problem={form.problem} />
          <Row>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {texts.send}
            </Button>
            <Button onPress={onClose}>{common.cancel}</Button>
          </Row>
        </Stack>
      </form>
    </Dialog>
  );
}

const measuresOf = ({ part }: Placed): Pick<Wanted, 'partId' | 'areaM2' | 'edgeM' | 'jointM'> => ({
  partId: part.id,
  areaM2: part.areaM2,
  edgeM: part.edgeM,
  jointM: part.jointM,
});

/** What was not touched is not sent: rounding in somebody's units would change it. */
function sent(values: Wanted, placed: Placed): Wanted {
  const was = measuresOf(placed);
  const changed = (key: 'areaM2' | 'edgeM' | 'jointM'): number | null =>
    values[key] === was[key] ? null : values[key];
  return {
    ...values,
    name: values.name.trim(),
    areaM2: changed('areaM2'),
    edgeM: changed('edgeM'),
    jointM: changed('jointM'),
  };
}

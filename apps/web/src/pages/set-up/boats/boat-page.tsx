import { useLocation } from 'preact-iso/router';
import { useState } from 'preact/hooks';
import { TextField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { boats as texts } from '../../../texts/boats.ts';
import { common } from '../../../texts/common.ts';
import { setUp } from '../../../texts/set-up.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { nameIn, useList } from '../lists/lists.ts';
import { RoomPage } from '../page.tsx';
import { useRecordForm } from '../record/record-form.ts';
import { BoatFields } from './boat-fields.tsx';
import { BoatListsProvider, useReadLists } from './boat-lists.ts';
import { RefitDialog } from './refit-dialog.tsx';
import { RefitPanel } from './refit-panel.tsx';
import { Removing } from './removing.tsx';
import { type Boat, boatCollection, type BoatValues } from './requests.ts';

/** One boat: whose it is, its refits, the parts of each and what is to be done to them. */
export function BoatPage({ id }: { readonly id: string }) {
  const { id: yardId } = useYard();
  const { route } = useLocation();
  // All of them: ids are to be free in the yard, and there are few boats in a small one.
  const all = useList('boats');
  const people = useList('people');
  const [open, setOpen] = useState<'boat' | 'refit'>();
  const shared = useReadLists(all.data, all.again);
  const boat = all.data?.find((one) => one.id === id);
  if (boat === undefined) {
    return (
      <RoomPage room="boats" title={setUp.rooms.boats}>
        {all.problem !== undefined ? (
          <ProblemNotice problem={all.problem} again={all.again} />
        ) : all.data === undefined ? (
          <Busy />
        ) : (
          <Notice title={setUp.record.gone}>{setUp.record.goneCure}</Notice>
        )}
      </RoomPage>
    );
  }
  const saved = (): void => {
    setOpen(undefined);
    all.again();
  };
  const names = boat.refits.map((refit) => refit.name);
  return (
    <RoomPage room="boats" title={boat.name} isNarrow={false}>
      {boat.owner !== null && <p>{texts.ownedBy(nameIn(people.data, boat.owner))}</p>}
      <Row>
        <Button label={texts.change(boat.name)} onPress={() => setOpen('boat')}>
          {common.edit}
        </Button>
        <Removing
          name={boat.name}
          keptBy={names.length === 0 ? null : texts.hasRefits(names)}
          remove={() => boatCollection.remove({ yardId, id }, boat.revision)}
          onRemoved={() => route(`/yards/${yardId}/set-up/boats`, true)}
        />
      </Row>
      {boat.refits.length === 0 && <p>{texts.refit.none}</p>}
      <BoatListsProvider value={shared}>
        {boat.refits.map((refit) => (
          <RefitPanel key={refit.id} boat={boat} refit={refit} />
        ))}
      </BoatListsProvider>
      <div>
        <Button kind={boat.refits.length === 0 ? 'do' : 'plain'} onPress={() => setOpen('refit')}>
          {texts.refit.isNew}
        </Button>
      </div>
      {open === 'boat' && (
        <BoatDialog boat={boat} onSaved={saved} onClose={() => setOpen(undefined)} />
      )}
      {open === 'refit' && (
        <RefitDialog
          boat={boat}
          refit={null}
          all={all.data ?? []}
          onSaved={saved}
          onClose={() => setOpen(undefined)}
        />
      )}
    </RoomPage>
  );
}

function BoatDialog({
  boat,
  onSaved,
  onClose,
}: {
  readonly boat: Boat;
  readonly onSaved: () => void;
  readonly onClose: () => void;
}) {
  const { id: yardId } = useYard();
  const at = { yardId, id: boat.id };
  const form = useRecordForm<Boat, BoatValues>({
    draftKey: `${yardId} boat ${boat.id}`,
    record: boat,
    valuesOf: (record) => boatCollection.valuesOf(record ?? boat),
    change: (values, { revision }) => boatCollection.update(at, revision, values),
    read: () => boatCollection.get(at, new AbortController().signal),
    onSaved,
  });
  return (
    <FormDialog title={texts.change(boat.name)} form={form} onClose={onClose}>
      <TextField {...form.at('name')} label={setUp.record.name} required maxLength={120} />
      <BoatFields form={form} />
    </FormDialog>
  );
}

import { useState } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Panel, Row } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { boats } from '../../../texts/boats.ts';
import { common } from '../../../texts/common.ts';
import css from '../set-up.module.css';
import { useBoatLists } from './boat-lists.ts';
import { PartDialog } from './part-dialog.tsx';
import { PartPanel } from './part-panel.tsx';
import { RefitDialog } from './refit-dialog.tsx';
import { Removing } from './removing.tsx';
import { type Boat, type Refit, removeRefit } from './requests.ts';

const texts = boats.refit;

/** One refit: when it may begin, when it is promised, and its parts. */
export function RefitPanel({ boat, refit }: { readonly boat: Boat; readonly refit: Refit }) {
  const { id: yardId, timeZone } = useYard();
  const [open, setOpen] = useState<'refit' | 'part'>();
  const { boats: all = [], again } = useBoatLists();
  const { name, release, promised, handovers, weight } = refit;
  const names = refit.parts.map((part) => part.name);
  const close = (): void => setOpen(undefined);
  const saved = (): void => {
    close();
    again();
  };
  return (
    <Panel title={name}>
      <p>
        <strong>
          {promised === null ? texts.noPromise : texts.promisedOn(dayAndClock(promised, timeZone))}
        </strong>{' '}
        <span class={css['soft']}>
          {[
            texts.from(dayAndClock(release, timeZone)),
            ...(handovers.length === 0
              ? []
              : [texts.handoversAt(handovers.map((at) => dayAndClock(at, timeZone)))]),
            ...(weight === 1 ? [] : [texts.weightIs(weight)]),
          ].join(', ')}
        </span>
      </p>
      <Row>
        <Button label={boats.change(name)} onPress={() => setOpen('refit')}>
          {common.edit}
        </Button>
        <Removing
          name={name}
          keptBy={names.length === 0 ? null : texts.hasParts(names)}
          remove={() => removeRefit({ yardId, id: refit.id }, refit.revision)}
          onRemoved={again}
        />
      </Row>
      {refit.parts.length === 0 && <p>{boats.part.none}</p>}
      {refit.parts.map((part) => (
        <PartPanel key={part.id} boat={boat} refit={refit} part={part} />
      ))}
      <div>
        <Button onPress={() => setOpen('part')}>{boats.part.isNew}</Button>
      </div>
      {open === 'refit' && (
        <RefitDialog boat={boat} refit={refit} all={all} onSaved={saved} onClose={close} />
      )}
      {open === 'part' && (
        <PartDialog
          boat={boat}
          refit={refit}
          part={null}
          all={all}
          onSaved={saved}
          onClose={close}
        />
      )}
    </Panel>
  );
}

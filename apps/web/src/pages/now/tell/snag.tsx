import { useState } from 'preact/hooks';
import { freshKey } from '../../../api/fresh-key.ts';
import { ChoiceField, QuantityField, TextField } from '../../../form/fields.tsx';
import { Button, Dialog, Notice, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import type { Problem } from '../../../api/problem.ts';
import type { Photo } from '../../../offline/deed.ts';
import { act } from '../../../offline/sender.ts';
import { person } from '../../../session/session.ts';
import { now as texts } from '../../../texts/now.ts';
import { Photos } from './photos.tsx';
import type { SnagKind, SnagPart } from './around.ts';

/** A defect on a part, with photos; out of reach it waits on this device with them. */
export function Snag({
  yardId,
  parts,
  partId,
  kinds,
  onClose,
}: {
  readonly parts: readonly SnagPart[];
  /** Of the work in hand; null: not known. */
  readonly partId: string | null;
  readonly kinds: readonly SnagKind[];
  readonly yardId: string;
  readonly onClose: (told: boolean) => void;
}) {
  const accountId = person.value?.id ?? '';
  const [part, setPart] = useState(partId ?? parts.at(0)?.id ?? '');
  const [kind, setKind] = useState<string>(kinds.at(0)?.kind ?? '');
  const [words, setWords] = useState('');
  const [areaM2, setArea] = useState<number | null>(null);
  const [photos, setPhotos] = useState<readonly Photo[]>([]);
  const [isWanting, setWanting] = useState(false);
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const chosen = kinds.find((one) => one.kind === kind);
  const where = parts.find(({ id }) => id === part);
  const raise = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (isBusy) return;
    if (chosen === undefined || where === undefined || words.trim() === '') {
      setWanting(true);
      return;
    }
    setBusy(true);
    setProblem(undefined);
    const snag = { kind: chosen.kind, words: words.trim(), taskId: null, areaM2 };
    const deed = { kind: 'snag', partId: where.id, snag, snagId: null, photos } as const;
    const outcome = await act(
      { accountId, yardId, key: freshKey() },
      deed,
      texts.snag.told(chosen.name, where.name),
    );
    setBusy(false);
    if (outcome.how === 'refused') setProblem(outcome.problem);
    else onClose(true);
  };
  return (
    <Dialog title={texts.snag.title} onClose={() => onClose(false)}>
      <form onSubmit={raise} noValidate>
        <Stack>
          <ChoiceField
            label={texts.snag.part}
            value={part}
            onValue={setPart}
            options={parts.map(({ id, label }) => ({ value: id, label }))}
            fault={isWanting && where === undefined ? texts.snag.noPart : undefined}
          />
          <ChoiceField
            label={texts.snag.kind}
            hint={chosen?.shows}
            value={kind}
            onValue={setKind}
            options={kinds.map((one) => ({ value: one.kind, label: one.name }))}
          />
          <Photos photos={photos} onPhotos={setPhotos} />
          <TextField
            label={texts.snag.words}
            value={words}
            onValue={setWords}
            lines={3}
            required
            maxLength={2000}
            fault={isWanting && words.trim() === '' ? texts.snag.noWords : undefined}
          />
          <QuantityField
            label={texts.snag.area}
            hint={texts.snag.areaHint}
            isOptional
            kind="area"
            value={areaM2}
            onValue={setArea}
          />
          {isWanting && (where === undefined || words.trim() === '') && (
            <Notice tone="harm" isNews>
              <p>{where === undefined ? texts.snag.noPart : texts.snag.noWords}</p>
            </Notice>
          )}
          <ProblemNotice problem={problem} />
          <Button kind="do" wide type="submit" isBusy={isBusy}>
            {texts.snag.raise}
          </Button>
        </Stack>
      </form>
    </Dialog>
  );
}

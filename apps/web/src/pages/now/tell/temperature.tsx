import { useState } from 'preact/hooks';
import { ChoiceField } from '../../../form/fields.tsx';
import { Busy, Button, Dialog, Row } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { quantity, scaleOf, storedNumber } from '../../../show/units.ts';
import { now as texts } from '../../../texts/now.ts';
import { Stepper } from '../stepper.tsx';
import type { Acting } from '../work/acting.ts';
import { useCalm } from '../work/calm.ts';
import type { Around } from './around.ts';
import { likely } from './likely.ts';
import own from './tell.module.css';
import { useAbout } from './warmth.ts';

/** As readings may be, °C. */
const [coldest, hottest] = [-60, 200];

/** A thermometer in a space: one press on what it shows tells it, or it is set by big steps. */
export function Temperature({
  yardId,
  spaces,
  spaceId,
  acting,
  onClose,
}: {
  readonly yardId: string;
  readonly spaces: Around['spaces'];
  /** Where whoever tells it is at work; null: not known. */
  readonly spaceId: string | null;
  readonly acting: Acting;
  readonly onClose: (told: boolean) => void;
}) {
  const first = spaces.find(({ id }) => id === spaceId) ?? spaces.at(0);
  const [chosen, choose] = useState(first?.id ?? '');
  const [of, setOf] = useState<'air' | 'surface'>('air');
  const space = spaces.find(({ id }) => id === chosen) ?? first;
  const key = `${space?.id ?? ''} ${of}`;
  const about = useAbout(yardId, space?.id, of);
  // What can be pressed comes or changes: a press that was meant for something else does not tell it.
  const calm = useCalm(about === undefined ? `${key} unknown` : key);
  const scale = scaleOf('temperature', units.value);
  const step = scale.unit === '°C' ? 0.5 : 1;
  const shownOf = (celsius: number): number =>
    Math.round((celsius * scale.factor + scale.offset) / step) * step;
  const [isBusy, setBusy] = useState(false);
  const [typed, setTyped] = useState<Readonly<Record<string, number>>>({});
  if (space === undefined) return null;
  const storedOf = (one: number): number => storedNumber('temperature', one, units.value);
  const wordsOf = (one: number): string => quantity('temperature', storedOf(one), units.value);
  const report = async (one: number): Promise<void> => {
    if (isBusy) return;
    const [celsius, value] = [storedOf(one), wordsOf(one)];
    const command = { kind: 'reading', space: space.id, of, celsius, note: '' } as const;
    const words = texts.temperature.told(value, texts.temperature[of], space.name);
    setBusy(true);
    const { how } = await acting.tell({ kind: 'report', command, claimId: null }, words);
    setBusy(false);
    // What was refused stays to be set right; `acting` says why.
    if (how !== 'refused') onClose(true);
  };
  const press = (one: number) => ({
    isBusy: isBusy || !calm.isCalm,
    onPress: () => calm.once(() => report(one)),
  });
  const shown = typed[key] ?? (about === undefined ? undefined : shownOf(about));
  return (
    <Dialog title={texts.tell.temperature} onClose={() => onClose(false)}>
      <ChoiceField
        label={texts.temperature.where}
        value={space.id}
        onValue={choose}
        options={spaces.map(({ id, name }) => ({ value: id, label: name }))}
      />
      <Row>
        {(['air', 'surface'] as const).map((one) => (
          <Button key={one} pressed={of === one} onPress={() => setOf(one)}>
            {texts.temperature[one]}
          </Button>
        ))}
      </Row>
      {about === undefined ? (
        <Busy />
      ) : (
        <>
          <section>
            <h3>{texts.temperature.likely}</h3>
            <ul class={own['likely']}>
              {likely(about, units.value).map((one) => (
                <li key={one}>
                  <Button wide {...press(one)}>
                    {wordsOf(one)}
                  </Button>
                </li>
              ))}
            </ul>
          </section>
          <Stepper
            label={texts.temperature.other}
            value={shown}
            shown={wordsOf(shown)}
            step={step}
            min={shownOf(coldest)}
            max={shownOf(hottest)}
            less={texts.temperature.colder}
            more={texts.temperature.warmer}
            onValue={(now) => setTyped({ ...typed, [key]: now })}
          />
          <Button kind="do" wide {...press(shown)}>
            {texts.temperature.report(wordsOf(shown))}
          </Button>
        </>
      )}
    </Dialog>
  );
}

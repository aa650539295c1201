import type { VNode } from 'preact';
import { useId, useMemo, useState } from 'preact/hooks';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import looks from '../../../looks/looks.module.css';
import { useYard } from '../../../frame/yard.tsx';
import { Notice } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { air } from '../../../texts/set-up-air.ts';
import css from '../set-up.module.css';
import { parseTable, type ParsedTable, type TableFault } from './parse-table.ts';

const texts = air.outdoor;
const degrees = ['celsius', 'fahrenheit'] as const;

/** A file or pasted lines of moments and temperatures, read as they are typed. */
export function useTable(): {
  readonly parsed: ParsedTable;
  readonly isEmpty: boolean;
  readonly clear: () => void;
  readonly fields: VNode;
} {
  const { timeZone } = useYard();
  const [text, setText] = useState('');
  const [unit, setUnit] = useState<string>(units.value.temperature);
  const file = useId();
  const isFahrenheit = unit === 'fahrenheit';
  const parsed = useMemo(
    () => parseTable(text, { zone: timeZone, isFahrenheit }),
    [text, timeZone, isFahrenheit],
  );
  const fields = (
    <>
      <div class={looks['field']}>
        <label class={looks['label']} for={file}>
          {texts.file}
        </label>
        <input
          id={file}
          type="file"
          class={looks['input']}
          accept=".csv,.tsv,.txt,text/csv,text/plain"
          onChange={(event) => {
            const chosen = event.currentTarget.files?.item(0);
            void chosen?.text().then(setText);
          }}
        />
      </div>
      <TextField
        label={texts.paste}
        hint={texts.example}
        lines={6}
        value={text}
        onValue={setText}
      />
      <ChoiceField
        label={texts.unit}
        value={unit}
        onValue={setUnit}
        options={degrees.map((value) => ({ value, label: texts.units[value] }))}
      />
      <Faults faults={parsed.faults} />
    </>
  );
  return { parsed, isEmpty: text.trim() === '', clear: () => setText(''), fields };
}

/** More than these are not read through one by one. */
const few = 10;

function Faults({ faults }: { readonly faults: readonly TableFault[] }) {
  return (
    <div role="status">
      {faults.length > 0 && (
        <Notice tone="heed" title={air.fault.title(faults.length)}>
          <ul class={css['plainList']}>
            {faults.slice(0, few).map(({ line, kind, text }) => (
              <li key={line}>
                <strong>{air.fault.line(line)}</strong> <bdi>{air.fault[kind](text)}</bdi>
              </li>
            ))}
            {faults.length > few && <li>{air.fault.more(faults.length - few)}</li>}
          </ul>
          <p>{air.fault.rest}</p>
        </Notice>
      )}
    </div>
  );
}

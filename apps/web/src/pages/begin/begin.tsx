import { useState } from 'preact/hooks';
import { useTitle } from '../../frame/title.ts';
import { Panel } from '../../looks/looks.tsx';
import { begin as texts } from '../../texts/begin.ts';
import css from './begin.module.css';
import { ByHand } from './by-hand.tsx';
import { FromFile } from './from-file.tsx';
import { OneOf } from './one-of.tsx';

type Beginning = 'kit' | 'nothing' | 'file';

const beginnings = [
  { value: 'kit', label: texts.kit, hint: texts.kitHint },
  { value: 'nothing', label: texts.nothing, hint: texts.nothingHint },
  { value: 'file', label: texts.file, hint: texts.fileHint },
] as const;

/** A new yard: with the kit, with nothing, or as a file has it. */
export default function Begin() {
  useTitle(texts.title);
  const [beginning, setBeginning] = useState<Beginning>('kit');
  return (
    <div class={css['page']}>
      <h1>{texts.title}</h1>
      <p>{texts.founder}</p>
      <Panel>
        <OneOf label={texts.begins} value={beginning} onValue={setBeginning} choices={beginnings} />
      </Panel>
      {/* Both stay where they are: what was typed into one is not lost by a look at the other. */}
      <div hidden={beginning === 'file'}>
        <ByHand withKit={beginning === 'kit'} />
      </div>
      <div hidden={beginning !== 'file'}>
        <FromFile />
      </div>
    </div>
  );
}

import { useRef, useState } from 'preact/hooks';
import { Button } from '../../../looks/looks.tsx';
import { setUp as texts } from '../../../texts/set-up.ts';
import css from '../set-up.module.css';

/** Something that is shown once, to be copied. */
export function Secret({ label, value }: { readonly label: string; readonly value: string }) {
  const text = useRef<HTMLParagraphElement>(null);
  const [said, setSaid] = useState('');
  // Where the browser forbids it, or the page came without https, the text is marked at least.
  const mark = (): void => {
    if (text.current !== null) getSelection()?.selectAllChildren(text.current);
    setSaid(texts.copyByHand);
  };
  const copy = (): void => {
    const { clipboard } = navigator as Partial<Pick<Navigator, 'clipboard'>>;
    if (clipboard === undefined) mark();
    else clipboard.writeText(value).then(() => setSaid(texts.copied), mark);
  };
  return (
    <>
      <p>{label}</p>
      <p class={css['secret']} ref={text}>
        {value}
      </p>
      <div>
        <Button onPress={copy}>{texts.copy}</Button> <span role="status">{said}</span>
      </div>
    </>
  );
}

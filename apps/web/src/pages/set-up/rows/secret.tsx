import { useState } from 'preact/hooks';
import { Button } from '../../../looks/looks.tsx';
import { setUp as texts } from '../../../texts/set-up.ts';
import css from '../set-up.module.css';

/** Something that is shown once, to be copied. */
export function Secret({ label, value }: { readonly label: string; readonly value: string }) {
  const [isCopied, setCopied] = useState(false);
  return (
    <>
      <p>{label}</p>
      <p class={css['secret']}>{value}</p>
      <div>
        <Button
          onPress={() => {
            // Where the browser forbids it, the text itself can be marked by one press.
            navigator.clipboard.writeText(value).then(
              () => setCopied(true),
              () => setCopied(false),
            );
          }}
        >
          {texts.copy}
        </Button>{' '}
        <span role="status">{isCopied && texts.copied}</span>
      </div>
    </>
  );
}

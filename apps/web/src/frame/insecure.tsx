import { useState } from 'preact/hooks';
import { Button } from '../looks/looks.tsx';
import { frame as texts } from '../texts/frame.ts';
import css from './frame.module.css';

const seenKey = 'seen-insecure';

/**
 * Said once a visit where the page came without https, from another machine: browsers keep from it
 * what works out of reach, notifies or signs in by passkey.
 */
export function Insecure() {
  const [isSeen, setSeen] = useState(() => sessionStorage.getItem(seenKey) !== null);
  if (isSecureContext || isSeen) return null;
  return (
    <aside class={css['insecure']} aria-label={texts.insecure}>
      <p>
        <strong>{texts.insecure}</strong> {texts.insecureLacks}
      </p>
      <p>{texts.insecureCure}</p>
      <Button
        onPress={() => {
          sessionStorage.setItem(seenKey, '1');
          setSeen(true);
        }}
      >
        {texts.insecureSeen}
      </Button>
    </aside>
  );
}

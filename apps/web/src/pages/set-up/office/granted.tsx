import { useState } from 'preact/hooks';
import { Button } from '../../../looks/looks.tsx';
import { Asking } from '../record/removing.tsx';
import css from '../set-up.module.css';

interface Words {
  readonly revoke: string;
  readonly revokeThis: (name: string) => string;
  readonly revoking: (name: string) => string;
  readonly warning: string;
}

/** Something that was given out and can be taken back. */
export function Granted({
  title,
  lines,
  isOpen,
  words,
  revoke,
  onRevoked,
}: {
  readonly title: string;
  readonly lines: readonly string[];
  readonly isOpen: boolean;
  readonly words: Words;
  readonly revoke: () => Promise<unknown>;
  readonly onRevoked: () => void;
}) {
  const [isAsking, setAsking] = useState(false);
  return (
    <li class={css['entry']}>
      <span class={css['entryText']}>
        <strong>
          <bdi>{title}</bdi>
        </strong>
        {lines.map((line) => (
          <span key={line} class={css['soft']}>
            {line}
          </span>
        ))}
      </span>
      {isOpen && (
        <Button kind="harm" label={words.revokeThis(title)} onPress={() => setAsking(true)}>
          {words.revoke}
        </Button>
      )}
      {isAsking && (
        <Asking
          title={words.revoking(title)}
          warning={words.warning}
          doIt={words.revoke}
          act={revoke}
          onDone={() => {
            setAsking(false);
            onRevoked();
          }}
          onClose={() => setAsking(false)}
        />
      )}
    </li>
  );
}

import { Button, Row } from '../../looks/looks.tsx';
import { account as texts } from '../../texts/account.ts';
import css from './account.module.css';

/** Shown once, for paper. */
export function RecoveryCodes({
  codes,
  onKept,
}: {
  readonly codes: readonly string[];
  readonly onKept: () => void;
}) {
  return (
    <>
      <p>{texts.codesWhat}</p>
      <ul class={css['codes']}>
        {codes.map((code) => (
          <li key={code}>{code}</li>
        ))}
      </ul>
      <Row>
        <Button
          onPress={() => {
            print();
          }}
        >
          {texts.print}
        </Button>
        <Button kind="do" onPress={onKept}>
          {texts.codesKept}
        </Button>
      </Row>
    </>
  );
}

import { useState } from 'preact/hooks';
import type { Schema } from '../../api/client.ts';
import type { Resource } from '../../api/resource.ts';
import { Busy, Button, Panel, ProblemNotice, Row } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { account as texts } from '../../texts/account.ts';
import { mustShow } from './factor.ts';
import { RecoveryCodes } from './recovery-codes.tsx';
import { SetUpCodes } from './set-up-codes.tsx';
import { ShowFactor } from './show-factor.tsx';
import { NewCodes, SwitchCodesOff } from './change-codes.tsx';

type Doing = 'set-up' | 'new-codes' | 'off';

/** One-time codes: whether they are asked for, and everything that changes it. */
export function SecondFactor({
  factor,
  zone,
}: {
  readonly factor: Resource<Schema<'SecondFactor'>>;
  readonly zone: string;
}) {
  const [doing, setDoing] = useState<Doing>();
  const [codes, setCodes] = useState<readonly string[]>();
  const end = (fresh?: readonly string[]): void => {
    setDoing(undefined);
    if (fresh !== undefined) setCodes(fresh);
    factor.again();
  };
  const now = factor.data;
  if (codes !== undefined) {
    return (
      <Panel title={texts.codesTitle}>
        <RecoveryCodes codes={codes} onKept={() => setCodes(undefined)} />
      </Panel>
    );
  }
  return (
    <Panel title={texts.factor}>
      <p>{texts.factorWhat}</p>
      <ProblemNotice problem={factor.problem} again={factor.again} />
      {now === undefined ? (
        <Busy />
      ) : (
        <>
          {now.totpSince === null ? (
            <p>{texts.factorOff}</p>
          ) : (
            <p>
              {texts.factorSince(dayAndClock(now.totpSince, zone))}{' '}
              {texts.recoveryLeft(now.recoveryCodesLeft)}.
            </p>
          )}
          {mustShow(now) && <ShowFactor factor={now} onShown={factor.again} />}
          {!mustShow(now) && doing === undefined && (
            <Row>
              {now.totpSince === null ? (
                <Button onPress={() => setDoing('set-up')}>{texts.setUp}</Button>
              ) : (
                <>
                  <Button onPress={() => setDoing('new-codes')}>{texts.newCodes}</Button>
                  <Button kind="harm" onPress={() => setDoing('off')}>
                    {texts.switchCodesOff}
                  </Button>
                </>
              )}
            </Row>
          )}
          {doing === 'set-up' && <SetUpCodes zone={zone} onEnd={end} />}
          {doing === 'new-codes' && <NewCodes onEnd={end} />}
          {doing === 'off' && <SwitchCodesOff onEnd={end} />}
        </>
      )}
    </Panel>
  );
}

import { useLocation } from 'preact-iso/router';
import { useEffect } from 'preact/hooks';
import { useTitle } from '../../frame/title.ts';
import { Busy, ButtonLink, Panel, Stack } from '../../looks/looks.tsx';
import { type Membership, person } from '../../session/session.ts';
import { common } from '../../texts/common.ts';
import { home as texts } from '../../texts/home.ts';
import { listed } from '../../texts/language.ts';
import css from './home.module.css';
import { usePageOf } from './page-of.ts';

/** Where somebody begins: their page in their yard; who has several chooses. */
export default function Home() {
  const memberships = person.value?.memberships ?? [];
  if (memberships.length === 0) return <NoYard />;
  if (memberships.length === 1 && isOpen(memberships[0])) return <OnlyYard of={memberships[0]} />;
  return <Yards memberships={memberships} />;
}

/** The yard takes the session as it is. */
const isOpen = ({ secondFactorRequired }: Membership): boolean =>
  !secondFactorRequired || person.value?.secondFactorAt !== null;

function OnlyYard({ of }: { readonly of: Membership }) {
  const { route } = useLocation();
  const page = usePageOf(of);
  useEffect(() => {
    if (page !== undefined) route(page, true);
  }, [page]);
  return <Busy />;
}

function NoYard() {
  useTitle(texts.none);
  return (
    <Stack>
      <h1>{texts.none}</h1>
      <p>{texts.noneInvited}</p>
      <p>{texts.noneBegin}</p>
      <div>
        <ButtonLink kind="do" to="/begin">
          {texts.begin}
        </ButtonLink>
      </div>
    </Stack>
  );
}

function Yards({ memberships }: { readonly memberships: readonly Membership[] }) {
  useTitle(texts.title);
  return (
    <div class={css['yards']}>
      <h1>{texts.title}</h1>
      {memberships.length > 1 && <p>{texts.choose}</p>}
      {memberships.map((membership) => (
        <YardToChoose key={membership.yardId} of={membership} />
      ))}
      <div>
        <ButtonLink kind="quiet" to="/begin">
          {texts.another}
        </ButtonLink>
      </div>
    </div>
  );
}

function YardToChoose({ of }: { readonly of: Membership }) {
  const page = usePageOf(of);
  const roles = texts.as(listed(of.roles.map((role) => common.role[role])));
  if (isOpen(of)) {
    return (
      <a class={css['yard']} href={page ?? `/yards/${of.yardId}/week`}>
        <strong>{of.yard}</strong>
        <span>{roles}</span>
      </a>
    );
  }
  return (
    <Panel>
      <strong>{of.yard}</strong>
      <span>{roles}</span>
      <p>{texts.needsFactor}</p>
      <div>
        <ButtonLink to="/account">{texts.toFactor}</ButtonLink>
      </div>
    </Panel>
  );
}

import { useLocation } from 'preact-iso/router';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { isReachable } from '../offline/reachable.ts';
import { hasEnded, hasRole, membershipIn, person, type Role } from '../session/session.ts';
import { common } from '../texts/common.ts';
import { frame as texts } from '../texts/frame.ts';
import css from './frame.module.css';
import { Insecure } from './insecure.tsx';

interface Way {
  readonly path: string;
  readonly name: string;
  readonly roles: readonly Role[];
}

const ways: readonly Way[] = [
  { path: 'now', name: texts.now, roles: ['builder'] },
  { path: 'week', name: texts.week, roles: ['foreman'] },
  { path: 'desk', name: texts.desk, roles: ['foreman'] },
  { path: 'plans', name: texts.plans, roles: ['foreman'] },
  { path: 'set-up', name: texts.setUp, roles: ['foreman'] },
  { path: 'my-boat', name: texts.myBoat, roles: ['owner'] },
];

/** The ways that somebody with these roles has; a yard of one needs no page about its own boats. */
function waysIn(yardId: string): readonly Way[] {
  return ways.filter(({ path, roles }) => {
    if (path === 'my-boat' && hasRole(yardId, 'foreman')) return false;
    return hasRole(yardId, ...roles);
  });
}

/** Everything around a page: where one is, where one can go, whether it is live. */
export function Frame({ children }: { readonly children: ComponentChildren }) {
  const { path } = useLocation();
  const main = useRef<HTMLElement>(null);
  const first = useRef(true);
  // Whoever goes by keyboard or by ear stands at the beginning of the new page.
  useEffect(() => {
    if (!first.current) main.current?.focus();
    first.current = false;
  }, [path]);
  const yardId = /^\/yards\/([^/]+)/.exec(path)?.[1];
  return (
    <div class={css['frame']}>
      <a class={css['skip']} href="#content">
        {common.skipToContent}
      </a>
      <Bar yardId={yardId} path={path} />
      <div>
        <div role="status">{!isReachable.value && <p class={css['away']}>{texts.offline}</p>}</div>
        <Insecure />
      </div>
      <main id="content" class={css['main']} ref={main} tabIndex={-1}>
        {children}
      </main>
    </div>
  );
}

function Bar({ yardId, path }: { readonly yardId: string | undefined; readonly path: string }) {
  const me = person.value;
  if (me === null || me === undefined || hasEnded.value) return null;
  const membership = yardId === undefined ? undefined : membershipIn(yardId);
  return (
    <header class={css['bar']}>
      <a class={css['yard']} href="/">
        {membership?.yard ?? common.product}
      </a>
      <nav aria-label={common.menu}>
        <ul class={css['pages']}>
          {membership !== undefined &&
            waysIn(membership.yardId).map((way) => {
              const to = `/yards/${membership.yardId}/${way.path}`;
              const isHere = path === to || path.startsWith(`${to}/`);
              return (
                <li key={way.path}>
                  <a class={css['page']} href={to} aria-current={isHere ? 'page' : undefined}>
                    {way.name}
                  </a>
                </li>
              );
            })}
        </ul>
      </nav>
      <a href="/account">{me.name}</a>
    </header>
  );
}

import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { api, asked } from '../api/client.ts';
import type { YardEvent } from '../api/live.ts';
import { useKeptResource } from '../offline/kept-resource.ts';
import { Busy, ProblemNotice } from '../looks/looks.tsx';
import { hasRole, membershipIn, type Role } from '../session/session.ts';
import { common } from '../texts/common.ts';
import { listed } from '../texts/language.ts';
import { Refusal } from './refusal.tsx';
import { YardContext } from './yard.tsx';

/** A page of a yard, for whoever has one of the roles there; the service judges for itself. */
export function InYard({
  yardId,
  roles,
  children,
}: {
  readonly yardId: string;
  readonly roles: readonly Role[];
  readonly children: ComponentChildren;
}) {
  const isMember = membershipIn(yardId) !== undefined;
  // Owners do not follow the log; what a yard is called or where it lies seldom changes under them.
  const live = hasRole(yardId, 'foreman', 'builder')
    ? { yardId, on: ({ kind }: YardEvent) => kind === 'yard-changed' }
    : undefined;
  const yard = useKeptResource(
    isMember ? `yard ${yardId}` : null,
    (signal) => asked(api.GET('/api/v1/yards/{yardId}', { params: { path: { yardId } }, signal })),
    live,
  );
  const name = yard.data?.name;
  // A page that has a title of its own puts it in the place of this one.
  useEffect(() => {
    if (name !== undefined) document.title = `${name} · ${common.product}`;
  }, [name]);
  // Whether there is such a yard is nobody's business who is not in it.
  if (!isMember) return <Refusal title={common.notFound} cure={common.notFoundCure} />;
  if (!hasRole(yardId, ...roles)) {
    const wanted = listed(roles.map((role) => common.role[role]));
    return <Refusal title={common.notYours} cure={common.notYoursCure(wanted)} />;
  }
  if (yard.data === undefined) {
    return yard.problem === undefined ? (
      <Busy />
    ) : (
      <ProblemNotice problem={yard.problem} again={yard.again} />
    );
  }
  return <YardContext.Provider value={yard.data}>{children}</YardContext.Provider>;
}

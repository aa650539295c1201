import { api, asked } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { isRemembered, type Membership } from '../../session/session.ts';
import { pageFor } from './page-for.ts';

/** Undefined as long as that is not known. */
export function usePageOf(membership: Membership): string | undefined {
  const { yardId, roles } = membership;
  const isAsked = roles.includes('foreman') && !isRemembered.value;
  const plan = useResource(isAsked ? `has a plan ${yardId}` : null, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/plans', {
        params: { path: { yardId }, query: { first: 1 } },
        signal,
      }),
    ).then(({ items }) => items.length > 0),
  );
  if (isAsked && plan.isBusy) return undefined;
  return pageFor(membership, plan.data ?? true);
}

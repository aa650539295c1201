import { isOpen, Order, type Rights } from '../../deciding/changes/order.tsx';
import { mayOutdate } from '../../deciding/outdates.ts';
import { api, asked, type Schema } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import { useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import { Panel } from '../../looks/looks.tsx';
import { membershipIn } from '../../session/session.ts';
import { desk as texts } from '../../texts/desk.ts';
import { Detail } from './detail.tsx';

interface Read {
  readonly change: Schema<'Change'>;
  readonly ownerId: string | null;
}

/** A change order as whoever runs the yard sees it: with its money, and what is theirs to say. */
export function ChangePage({ id }: { readonly id: string }) {
  const { id: yardId } = useYard();
  const me = membershipIn(yardId)?.memberId;
  const read = useResource<Read | null>(
    `change ${yardId} ${id}`,
    (signal) => readChange(yardId, id, signal),
    { yardId, on: (event) => event.subjectId === id || mayOutdate(event) },
  );
  return (
    <Detail<Read>
      kind="change"
      title={({ change }) => texts.change.boat(change.boat, change.refit)}
      read={read}
    >
      {({ change, ownerId }) => (
        <Panel>
          {isOpen(change) && (
            <p>{change.decides === 'owner' ? texts.change.owner : texts.change.foreman}</p>
          )}
          <Order
            change={change}
            rights={rightsOf(change, ownerId, me)}
            level={2}
            again={read.again}
          />
        </Panel>
      )}
    </Detail>
  );
}

async function readChange(yardId: string, id: string, signal: AbortSignal): Promise<Read | null> {
  const path = { yardId, id };
  const change = await asked(
    api.GET('/api/v1/yards/{yardId}/changes/{id}', { params: { path }, signal }),
  ).catch((error: unknown) => {
    if (problemOf(error).status === 404) return null;
    throw error;
  });
  if (change === null) return null;
  const { owner } = await asked(
    api.GET('/api/v1/yards/{yardId}/boats/{id}', {
      params: { path: { yardId, id: change.boatId } },
      signal,
    }),
  );
  return { change, ownerId: owner };
}

/** What the service lets a foreman do: see `changes.rules` there. */
function rightsOf(
  { decides, raisedBy }: Schema<'Change'>,
  ownerId: string | null,
  me: string | undefined,
): Rights {
  const isOwner = ownerId !== null && ownerId === me;
  const isOfOwner = raisedBy.id === ownerId;
  const decidesIt = decides === 'foreman' || isOwner;
  return {
    decides: decidesIt,
    declines: decidesIt || isOfOwner,
    withdraws: raisedBy.id === me || !isOfOwner,
  };
}

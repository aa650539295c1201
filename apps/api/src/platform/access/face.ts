import type { ExecutionContext } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { infoOf, isGraphql, requestOf } from './caller.ts';

const graphqlRoots: readonly string[] = ['Query', 'Mutation', 'Subscription'];

/** The face, in the table's words, by which a call came. */
export function faceOf(context: ExecutionContext): string {
  if (!isGraphql(context)) return restFaceOf(requestOf(context));
  const { parentType, fieldName } = infoOf(context);
  return graphqlFace(parentType.name, fieldName);
}

function restFaceOf({ method, routeOptions }: FastifyRequest): string {
  // Fastify answers HEAD by the handler of GET.
  return restFace(method === 'HEAD' ? 'GET' : method, routeOptions.url ?? '');
}

/** `GET yards/{yardId}/boats` of `/api/v1/yards/:yardId/boats`; outside /api/v1 the slash stays. */
export function restFace(method: string, route: string): string {
  const path = route.replace(/^\/api\/v1(\/|$)/, '').replaceAll(/:(\w+)/g, '{$1}');
  return `${method} ${path}`;
}

/** `Query.boat`, or `field Boat.refits` where a field of another type has a resolver of its own. */
export function graphqlFace(parentType: string, fieldName: string): string {
  const name = `${parentType}.${fieldName}`;
  return graphqlRoots.includes(parentType) ? name : `field ${name}`;
}

/** A field below a root field is asked for by whoever the guard met there. */
export function isBelowRoot(context: ExecutionContext): boolean {
  return isGraphql(context) && infoOf(context).path.prev !== undefined;
}

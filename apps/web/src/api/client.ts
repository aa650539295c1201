import createClient, { type Middleware } from 'openapi-fetch';
import { signal } from '@preact/signals';
import { freshKey } from './fresh-key.ts';
import { Problem, type ProblemBody } from './problem.ts';
import type { components, paths } from './schema.ts';

/** Shapes of the service by name: `Schema<'ReadyTask'>`. */
export type Schema<Name extends keyof components['schemas']> = components['schemas'][Name];

/** Proof that this page could read our answers; goes with the cookie. Null: nobody is signed in. */
export const csrf = signal<string | null>(null);

/** Told when the service says that nobody is signed in (any more), or somebody else. */
export const signedOut = signal(0);

const proofHeader = 'x-csrf-token';

const guard: Middleware = {
  onRequest({ request }) {
    // Whoever sends for one session only has said so.
    if (csrf.value !== null && !request.headers.has(proofHeader)) {
      request.headers.set(proofHeader, csrf.value);
    }
    return request;
  },
  async onResponse({ response }) {
    if (csrf.peek() !== null && (await isOfAnother(response))) signedOut.value += 1;
  },
};

/** Nobody is signed in, or the cookie is of another session than this page: another page signed somebody in. */
async function isOfAnother(response: Response): Promise<boolean> {
  if (response.status !== 403) return response.status === 401;
  const body: unknown = await response.clone().json();
  return typeof body === 'object' && body !== null && Reflect.get(body, 'code') === 'access.forged';
}

/** Every operation of the service, by its address; the types are the service's own. */
export const api = createClient<paths>({ baseUrl: location.origin });
api.use(guard);

/** What openapi-fetch gives back. */
interface Answer<Data> {
  readonly data?: Data;
  readonly error?: unknown;
  readonly response: Response;
}

/** The body of an answer; throws a `Problem` where the service refuses or cannot be reached. */
export async function asked<Data>(call: Promise<Answer<Data>>): Promise<Data> {
  const { data, error, response } = await call.catch((cause: unknown): never => {
    if (cause instanceof DOMException && cause.name === 'AbortError') throw cause;
    throw new Problem(0, { code: 'unreachable', title: 'unreachable', detail: String(cause) });
  });
  if (!response.ok) throw new Problem(response.status, bodyOf(error));
  // An answer without a body (204) is `undefined` by its type too.
  return data as Data;
}

function bodyOf(error: unknown): Partial<ProblemBody> {
  return typeof error === 'object' && error !== null ? error : {};
}

/** `If-Match` of the revision that a change was made from. */
export const ifMatch = (revision: number): { readonly 'If-Match': string } => ({
  'If-Match': `"${String(revision)}"`,
});

/** A command that is done once however often it is sent under the key. */
export const once = (key: string = freshKey()): { readonly 'Idempotency-Key': string } => ({
  'Idempotency-Key': key,
});

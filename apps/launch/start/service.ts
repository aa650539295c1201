import { setTimeout as sleep } from 'node:timers/promises';
import { z } from 'zod';

const problemSchema = z.object({ title: z.string(), detail: z.string(), cure: z.string() });

/** The service as any program calls it: REST over HTTP. */
export interface Service {
  readonly url: string;
  get<S extends z.ZodType>(path: string, shape: S): Promise<z.output<S>>;
  post<S extends z.ZodType>(path: string, body: unknown, shape: S): Promise<z.output<S>>;
}

/** `token` of the session to call with; calls end when `signal` aborts. Throws what a problem says. */
function serviceAt(url: string, signal: AbortSignal, token?: string): Service {
  const call = async <S extends z.ZodType>(
    method: string,
    path: string,
    body: unknown,
    shape: S,
  ): Promise<z.output<S>> => {
    const answer = await fetch(`${url}/api/v1${path}`, {
      method,
      signal,
      headers: {
        ...(token === undefined ? {} : { authorization: `Bearer ${token}` }),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const json: unknown = await answer.json();
    if (answer.ok) return shape.parse(json);
    const { title, detail, cure } = problemSchema.parse(json);
    throw new Error(`${method} ${path}: ${title}. ${detail} ${cure}`);
  };
  return {
    url,
    get: (path, shape) => call('GET', path, undefined, shape),
    post: (path, body, shape) => call('POST', path, body, shape),
  };
}

export async function signIn(
  url: string,
  signal: AbortSignal,
  email: string,
  password: string,
): Promise<Service> {
  const nobody = serviceAt(url, signal);
  const { token } = await nobody.post(
    '/sessions',
    { email, password },
    z.object({ token: z.string() }),
  );
  return serviceAt(url, signal, token);
}

const healthMs = 60_000;

/** Resolves once the service answers and its database does. */
export async function healthy(url: string, signal: AbortSignal): Promise<void> {
  const deadline = Date.now() + healthMs;
  for (;;) {
    const answer = await fetch(`${url}/api/v1/health`, { signal }).catch(() => null);
    if (answer?.ok === true) return;
    signal.throwIfAborted();
    if (Date.now() > deadline) throw new Error(`${url} does not answer after a minute`);
    await sleep(100, undefined, { signal });
  }
}

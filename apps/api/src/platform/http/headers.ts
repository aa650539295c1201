import helmet, { type FastifyHelmetOptions } from '@fastify/helmet';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Config } from '../config/config.ts';

type Directives = Readonly<Record<string, readonly string[]>>;

/** Of answers that are data: a browser that shows one loads nothing, runs nothing and is in no frame. */
const dataPolicy: Directives = {
  'default-src': ["'none'"],
  'base-uri': ["'none'"],
  'form-action': ["'none'"],
  'frame-ancestors': ["'none'"],
};

const ownPage: Directives = {
  ...dataPolicy,
  'script-src': ["'self'"],
  'style-src': ["'self'"],
  'img-src': ["'self'"],
  'connect-src': ["'self'"],
};

/**
 * The content policy of the screens: their own files and what the service says, nothing inline,
 * nothing from elsewhere. `blob:` shows a photo before it is sent; text becomes no script (Trusted
 * Types), but for the address of the service worker, which a policy of that name passes.
 */
export const pagePolicy = textOf({
  ...ownPage,
  'img-src': ["'self'", 'blob:'],
  'worker-src': ["'self'"],
  'manifest-src': ["'self'"],
  'form-action': ["'self'"],
  'require-trusted-types-for': ["'script'"],
  'trusted-types': ['service-worker'],
});

/** The library's page has its style inline and its icons as data; no script is. */
const docsPolicy = textOf({
  ...ownPage,
  'style-src': ["'self'", "'unsafe-inline'"],
  'img-src': ["'self'", 'data:'],
});
const docs = '/api/v1/docs';

/** For what is refused before any hook has run, which would have set them: an address that is none. */
export function setBareHeaders(request: FastifyRequest, reply: FastifyReply): void {
  void reply.headers({
    'x-request-id': request.id,
    'cache-control': 'no-store',
    'content-security-policy': textOf(dataPolicy),
    'cross-origin-resource-policy': 'same-origin',
    'referrer-policy': 'no-referrer',
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
  });
}

const year = 365 * 24 * 60 * 60;

/** Headers of every answer (OWASP REST Security Cheat Sheet, Security Headers); a handler may set its own policy. */
export async function setHeaders(
  app: NestFastifyApplication,
  { publicUrl }: Config,
): Promise<void> {
  const options: FastifyHelmetOptions = {
    contentSecurityPolicy: { useDefaults: false, directives: { ...dataPolicy } },
    // A machine of one's own has no TLS, and `localhost` would keep the promise for all its ports.
    strictTransportSecurity: publicUrl.protocol === 'https:' && {
      maxAge: year,
      includeSubDomains: false,
    },
    xFrameOptions: { action: 'deny' },
  };
  await app.register(helmet, options);
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onRequest', async (request: FastifyRequest, reply: FastifyReply) => {
      const isDocs = request.url.startsWith(docs);
      reply.headers({
        'x-request-id': request.id,
        'cache-control': isDocs ? 'no-cache' : 'no-store',
        ...(isDocs ? { 'content-security-policy': docsPolicy } : {}),
      });
    });
}

function textOf(directives: Directives): string {
  return Object.entries(directives)
    .map(([name, values]) => [name, ...values].join(' '))
    .join(';');
}

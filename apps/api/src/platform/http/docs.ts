import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DocumentBuilder, type OpenAPIObject, SwaggerModule } from '@nestjs/swagger';
import { componentSchemas } from '../shapes/openapi.ts';

/** The OpenAPI 3.1 document: addresses from the controllers, shapes from their one declaration. */
export function openApiDocument(app: NestFastifyApplication): OpenAPIObject {
  const config = new DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Curewright')
    .setDescription('Plans the refit of composite boats around cure windows and crew hours.')
    .setVersion('1')
    .addBearerAuth({
      type: 'http',
      scheme: 'bearer',
      description: 'The token of POST /api/v1/sessions.',
    })
    .addSecurityRequirements('bearer')
    .build();
  const document = SwaggerModule.createDocument(app, config, { operationIdFactory });
  document.components = {
    ...document.components,
    schemas: { ...document.components?.schemas, ...componentSchemas(), Problem: problemSchema },
  };
  for (const [address, path] of Object.entries(document.paths)) {
    for (const operation of [path.get, path.post, path.put, path.patch, path.delete]) {
      if (!operation) continue;
      operation.responses['default'] = problemResponse;
      operation.parameters = [...ofAddress(address, operation), ...(operation.parameters ?? [])];
    }
  }
  return document;
}

type Operation = NonNullable<OpenAPIObject['paths'][string]['get']>;

/** The `{names}` of an address that no handler takes by itself: the guard reads the yard's. */
function ofAddress(address: string, { parameters = [] }: Operation) {
  const known = parameters.flatMap((one) => ('name' in one && one.in === 'path' ? [one.name] : []));
  return [...address.matchAll(/\{(\w+)\}/g)]
    .map(([, name]) => name)
    .filter((name) => !known.includes(name))
    .map((name) => ({ name, in: 'path' as const, required: true, schema: text }));
}

/** Serves it at /api/v1/openapi.json, and a page to browse it whose assets come from here too. */
export function serveDocs(app: NestFastifyApplication): void {
  SwaggerModule.setup('api/v1/docs', app, () => openApiDocument(app), {
    jsonDocumentUrl: 'api/v1/openapi.json',
    customSiteTitle: 'Curewright API',
    raw: ['json'],
  });
}

/** `spaces_list`: the concept and what is done with it. */
function operationIdFactory(controller: string, method: string): string {
  return `${controller.replace(/Controller$/, '').toLowerCase()}_${method}`;
}

const problemResponse = {
  description: 'A problem (RFC 9457)',
  content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
};

const text = { type: 'string' as const };

const problemSchema = {
  type: 'object' as const,
  required: ['type', 'title', 'status', 'detail', 'code', 'cure', 'errors'],
  properties: {
    type: text,
    title: text,
    status: { type: 'integer' as const },
    detail: text,
    instance: text,
    code: { ...text, description: 'From the catalogue of errors; stable.' },
    cure: { ...text, description: 'What to do about it.' },
    errors: {
      type: 'array' as const,
      items: {
        type: 'object' as const,
        required: ['code', 'path', 'message', 'cure'],
        properties: { code: text, path: text, value: {}, message: text, cure: text },
      },
    },
  },
};
